"""The command line: the one place that reads the clock and the environment, prints, and says how it ended.

```
arguments   what may be asked, and the help          main       dispatch, faults to words, exit codes
overnight   the night                                 still      a night that has nothing to do
check       every problem of a book
new         first files of a book or a client         progress   how a night is told while it runs
speech      problems and sums in words                new_book/  the files that `new` begins with
```
"""

from soilrota.cli.entry import main

__all__ = ["main"]
