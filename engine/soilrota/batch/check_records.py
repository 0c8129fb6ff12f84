"""Values of blind check samples: kept in records/check_samples/<laboratory>.csv, added to, never changed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal
from hashlib import sha256
from pathlib import Path
from typing import Any

from soilrota.batch.faults import DamagedRecordsError
from soilrota.files import file_digest, replace_file, safe_table
from soilrota.model.check_values import CheckValue
from soilrota.problems import Problem

FOLDER = "records/check_samples"
_COLUMNS = (
    "laboratory",
    "report",
    "issue",
    "bag",
    "material",
    "sent",
    "received",
    "reported",
    "analyte",
    "method",
    "qualifier",
    "value",
    "unit",
    "origin",
)


def read_check_values(root: Path, laboratory: str) -> tuple[tuple[CheckValue, ...] | None, tuple[Problem, ...]]:
    """Return the values of one laboratory, or None where its file has an error; and the problems.

    Args:
        root: the book's folder.
        laboratory: id of the laboratory; none of its samples came back where it has no file.
    """
    path = root / FOLDER / f"{laboratory}.csv"
    if not path.exists():
        return (), ()
    from soilrota.files import read_csv  # noqa: PLC0415 - a night that reads no table does without what reads them

    table, problems = read_csv(path, f"{FOLDER}/{laboratory}.csv", "check_values")
    return (None if table is None else tuple(_value(row.values) for row in table.rows)), problems


def read_all_check_values(root: Path) -> tuple[tuple[CheckValue, ...], tuple[Problem, ...]]:
    """Return the values of every laboratory whose file has no error, by laboratory; and all problems."""
    values: tuple[CheckValue, ...] = ()
    problems: tuple[Problem, ...] = ()
    for path in sorted((root / FOLDER).glob("*.csv")):
        some, found = read_check_values(root, path.stem)
        values += some or ()
        problems += found
    return values, problems


def check_values_digest(root: Path) -> str:
    """Return the digest of the values of every laboratory."""
    files = sorted((root / FOLDER).glob("*.csv"))
    return sha256("\n".join(f"{path.name} {file_digest(path)}" for path in files).encode()).hexdigest()


def contradicted(known: Iterable[CheckValue], values: Iterable[CheckValue]) -> tuple[CheckValue, ...]:
    """Return those of some values that say otherwise than a known one of the same report, issue, bag and analysis.

    They are never written: whoever takes a file in asks first, and sets their rows aside.
    """
    there = {value.key: _measured(value) for value in known}
    return tuple(value for value in values if there.setdefault(value.key, _measured(value)) != _measured(value))


def add_check_values(root: Path, laboratory: str, values: Sequence[CheckValue]) -> bool:
    """Add values to a laboratory's file, those apart that stand there; return whether the file was written.

    A value of which one of the same report, issue, bag and analysis stands there is passed over, see `contradicted`.

    Raises:
        DamagedRecordsError: the file has errors, so that nobody can say what stands there.
        OSError: the file cannot be written.
    """
    known, problems = read_check_values(root, laboratory)
    if known is None:
        raise DamagedRecordsError(f"{problems[0]}", problems)
    together = dict.fromkeys(value.key for value in known)
    fresh: list[CheckValue] = []
    for value in values:
        if value.key not in together:
            together[value.key] = None
            fresh.append(value)
    if not fresh:
        return False
    rows = (_row(value) for value in (*known, *fresh))
    replace_file(root / FOLDER / f"{laboratory}.csv", safe_table(_COLUMNS, rows, numbers=("value",)))
    return True


def _measured(value: CheckValue) -> tuple[str, str, str]:
    """Return what was measured, as it is written down."""
    return value.qualifier, _number(value.value), value.unit


def _value(row: dict[str, Any]) -> CheckValue:
    """Return one value."""
    return CheckValue(
        laboratory=row["laboratory"],
        report=_unmarked(row["report"]),
        issue=row["issue"],
        bag=row["bag"],
        material=row["material"],
        sent=row["sent"],
        received=row["received"],
        reported=row["reported"],
        analyte=row["analyte"],
        method=row["method"],
        qualifier=row["qualifier"] or "",
        value=float(row["value"]),
        unit=row["unit"],
        origin=row["origin"] or "",
    )


def _unmarked(text: str) -> str:
    """Return text without the apostrophe that keeps spreadsheets from taking it for a formula."""
    return text[1:] if text[:2] in {"'=", "'+", "'-", "'@"} else text


def _row(value: CheckValue) -> dict[str, str]:
    """Return the row of one value; empty where a day is not known."""
    return {
        "laboratory": value.laboratory,
        "report": value.report,
        "issue": str(value.issue),
        "bag": value.bag,
        "material": value.material,
        "sent": value.sent.isoformat(),
        "received": value.received.isoformat() if value.received else "",
        "reported": value.reported.isoformat(),
        "analyte": value.analyte,
        "method": value.method,
        "qualifier": value.qualifier,
        "value": _number(value.value),
        "unit": value.unit,
        "origin": value.origin,
    }


def _number(value: float) -> str:
    """Return a number with at most twelve figures, more than any laboratory reports, and without an exponent.

    >>> _number(27.5), _number(32.0), _number(0.1 + 0.2)
    ('27.5', '32', '0.3')
    """
    return f"{Decimal(f'{value:.12g}'):f}"
