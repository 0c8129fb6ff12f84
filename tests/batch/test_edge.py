"""What sending takes from the edge of the program."""

from __future__ import annotations

import subprocess
import sys


def test_it_loads_nothing_that_reads_yaml() -> None:
    """A quiet night makes one, and must stay cheap."""
    code = (
        "import sys; before = set(sys.modules); import soilrota.batch.edge; "
        "print(sorted({'yaml', 'jinja2', 'pandas', 'sqlite3'} & (set(sys.modules) - before)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
