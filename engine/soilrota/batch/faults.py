"""Why a night or a check does not start at all, or cannot go on.

```
BatchError
├─ CannotStartError      the book, the output folder, the ledger or the request is not fit to begin with
├─ AnotherRunError       another night is at work on the same book
└─ DamagedRecordsError   a file of records has errors, so that nothing can be added to it
```
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from soilrota.problems import Problem


class BatchError(Exception):
    """Something that stops the command before any client is begun; its text is for people."""


class CannotStartError(BatchError):
    """Nothing can begin; `problems` are those of the book's files, where they are the cause."""

    def __init__(self, words: str, problems: tuple[Problem, ...] = ()) -> None:
        super().__init__(words)
        self.problems = problems


class AnotherRunError(BatchError):
    """Another night holds the book's lock."""


class DamagedRecordsError(BatchError):
    """A file of records has errors; it is left as it is, and `problems` say where."""

    def __init__(self, words: str, problems: tuple[Problem, ...]) -> None:
        super().__init__(words)
        self.problems = problems
