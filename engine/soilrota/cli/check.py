"""`soilrota check`: every problem on standard output, how many on standard error."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from soilrota.batch.checking import CheckReport, check_book
from soilrota.batch.faults import CannotStartError
from soilrota.batch.problem_records import to_records
from soilrota.cli.exit_codes import ExitCode
from soilrota.cli.speech import complain, counted, say, say_problems
from soilrota.problems import Severity

#: Folders of a book of which each entry is named after a client, and how many names down the client's is.
_OF_A_CLIENT = {("clients",): 1, ("records", "results"): 2}


def check(chosen: Any) -> int:
    """Check what the arguments ask for, and return the exit code."""
    books = sorted(_wanted(chosen.paths).items(), key=_by_root)
    reports = {root: check_book(root, chosen.only or only) for root, only in books}
    if chosen.json:
        records = [
            {"book": str(root), **record} for root, report in reports.items() for record in to_records(report.problems)
        ]
        say(json.dumps(records, ensure_ascii=False, indent=2))
    else:
        for root, report in reports.items():
            say_problems(report.problems, before="" if root == Path() else f"{root.as_posix().rstrip('/')}/")
    errors = sum(report.count(Severity.ERROR) for report in reports.values())
    complain(_sum(reports.values(), errors))
    return ExitCode.SOME_PROBLEMS if errors else ExitCode.GOOD


def _by_root(wanted: tuple[Path, object]) -> str:
    """Return what books are sorted by."""
    return str(wanted[0])


def _wanted(paths: Iterable[Path]) -> dict[Path, tuple[str, ...] | None]:
    """Return the clients to check by book; None for all of them.

    Raises:
        CannotStartError: a path is neither a book nor in one.
    """
    wanted: dict[Path, set[str] | None] = {}
    for path in paths:
        root = _book_of(path)
        client = _client_of(path.resolve().relative_to(root.resolve()).parts)
        before = wanted.setdefault(root, set())
        if client is None or before is None:
            wanted[root] = None
        else:
            before.add(client)
    return {root: None if some is None else tuple(sorted(some)) for root, some in wanted.items()}


def _book_of(path: Path) -> Path:
    """Return the book that a path is, or is in: the nearest folder with a practice.yaml.

    Raises:
        CannotStartError: there is none.
    """
    if path.is_dir() and (path / "practice.yaml").is_file():
        return path
    for folder in path.parents if path.exists() else ():
        if (folder / "practice.yaml").is_file():
            return folder
    for folder in path.resolve().parents if path.exists() else ():
        if (folder / "practice.yaml").is_file():
            return folder
    raise CannotStartError(f"{path} is not a book, nor a file of one: no practice.yaml there or above")


def _client_of(parts: tuple[str, ...]) -> str | None:
    """Return the client that a path in a book belongs to; None where it belongs to all."""
    for folder, place in _OF_A_CLIENT.items():
        if parts[: len(folder)] == folder and len(parts) > place:
            return parts[place]
    return None


def _sum(reports: Iterable[CheckReport], errors: int) -> str:
    """Return the check on one line."""
    reports = tuple(reports)
    checked = sum(len(report.checked) for report in reports)
    unchecked = sum(len(report.unchecked) for report in reports)
    warnings = sum(report.count(Severity.WARNING) for report in reports)
    words = f"{counted(checked, 'client')} checked: {counted(errors, 'error')}, {counted(warnings, 'warning')}"
    if unchecked:
        words += f"; {counted(unchecked, 'client')} not checked until the files that all clients share are mended"
    return words
