"""`records/set_aside/`: rows and files that could not be accepted, each with its reasons, for a person to mend.

Rows stand in a table in the laboratory's own columns with two more before them: the row's name (`digest:number`) and
why it was set aside. Mended there, the file can be dropped into the inbox again. A file of which nothing could be read
is kept whole, with its reasons in a text beside it.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Collection, Iterable
from pathlib import Path

from soilrota.batch.received import SHORT, Received
from soilrota.files import replace_file
from soilrota.problems import Problem

FOLDER = "records/set_aside"
_LONGEST_STEM = 60


def table_name(record: Received) -> str:
    """Return the name of the table of a file's rows, for instance `results-12-february-3f2a91c0e1b2.csv`."""
    return f"{_stem(record)}.csv"


def _stem(record: Received) -> str:
    """Return a name that any system can have: words of the file's own name, then its digest."""
    words = "-".join(re.findall(r"[a-z0-9]+", Path(record.name).stem.casefold()))[:_LONGEST_STEM].strip("-")
    return f"{words}-{record.short}" if words else record.short


def keep_rows(root: Path, record: Received, table: bytes | None) -> None:
    """Put the table of a file's waiting rows in place, or take it away where none waits.

    Raises:
        OSError: it cannot be written.
    """
    _replace(root / FOLDER / table_name(record), table)


def keep_reasons(root: Path, record: Received) -> None:
    """Say beside a file of which nothing could be read why that is; take the words away where they no longer hold.

    Raises:
        OSError: they cannot be written.
    """
    words = None
    if record.refused:
        whole = f"The file is kept as records/received/{record.digest}.file and is tried again when the book changes."
        lines = [f"{record.name}: nothing of it could be taken in.", *_lines(record.refused), whole, ""]
        words = "\n".join(lines).encode()
    _replace(root / FOLDER / f"{_stem(record)}.txt", words)


def take_rows(root: Path, record: Received, numbers: Collection[int]) -> None:
    """Take rows that no longer wait out of a file's table.

    Raises:
        OSError: it cannot be read or written.
    """
    path = root / FOLDER / table_name(record)
    if not path.is_file():
        return
    gone = {f"{record.digest[:SHORT]}:{number}" for number in numbers}
    text = path.read_text(encoding="utf-8-sig")
    rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=_delimiter(text)))
    kept = [row for row in rows if not row or row[0] not in gone]
    if len(kept) == len(rows):
        return
    waits = any(row and row[0].startswith(f"{record.short}:") for row in kept)
    out = io.StringIO(newline="")
    csv.writer(out, delimiter=_delimiter(text)).writerows(kept)
    _replace(path, f"\ufeff{out.getvalue()}".encode() if waits else None)


def _delimiter(text: str) -> str:
    """Return the sign between the first two headings of our own tables."""
    found = re.search(r"set aside as(.)because", text)
    return found[1] if found else ","


def _lines(reasons: Iterable[Problem]) -> Iterable[str]:
    """Return each reason on a line."""
    return (f"  {reason}" for reason in reasons)


def _replace(path: Path, content: bytes | None) -> None:
    """Put a file in place, or take it away."""
    if content is None:
        path.unlink(missing_ok=True)
    elif not path.is_file() or path.read_bytes() != content:
        replace_file(path, content)
