"""Problems as plain records, for JSON, and back."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from soilrota.problems import Place, Problem, Severity


def to_records(problems: Iterable[Problem]) -> list[dict[str, Any]]:
    """Return a record a problem: severity, code, file, line, column, path, found, expected, mend."""
    return [
        {
            "severity": str(problem.severity),
            "code": problem.code,
            "file": problem.place.file,
            "line": problem.place.line,
            "column": problem.place.column,
            "path": problem.place.path,
            "found": problem.found,
            "expected": problem.expected,
            "mend": problem.mend,
        }
        for problem in problems
    ]


def from_records(records: Iterable[Mapping[str, Any]]) -> tuple[Problem, ...]:
    """Return the problems that `to_records` made the records of."""
    return tuple(
        Problem(
            Severity(record["severity"]),
            record["code"],
            Place(record["file"], record["line"], record["column"], record["path"]),
            record["found"],
            record["expected"],
            record["mend"],
        )
        for record in records
    )
