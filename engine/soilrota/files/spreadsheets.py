"""Tables for spreadsheets: CSV of which no text is taken for a formula."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Collection, Iterable, Mapping, Sequence

#: First characters that make a spreadsheet take a text for a formula (OWASP ASVS 5.0.0, 1.2.10).
FORMULA = frozenset("=+-@\t\r\n\0")
#: A number below nought, which a spreadsheet takes for a number.
_NUMBER = re.compile(r"-[0-9]+(\.[0-9]+)?")


def safe_table(columns: Sequence[str], rows: Iterable[Mapping[str, str]], numbers: Collection[str] = ()) -> bytes:
    """Return a table as UTF-8 CSV (RFC 4180), no text of which a spreadsheet takes for a formula.

    Args:
        columns: names of the columns, in order.
        rows: text by column; a column that a row lacks is empty.
        numbers: columns that hold numbers of our own, so that one below nought stays a number.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(columns)
    writer.writerows([_cell(row.get(column, ""), is_number=column in numbers) for column in columns] for row in rows)
    return text.getvalue().encode()


def _cell(value: str, *, is_number: bool) -> str:
    """Return the value with an apostrophe before it where it would be taken for a formula."""
    if is_number and _NUMBER.fullmatch(value):
        return value
    return f"'{value}" if value[:1] in FORMULA else value
