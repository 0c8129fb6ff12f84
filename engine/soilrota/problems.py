"""What a person got wrong, as a value: where it stands, what is wrong and how to mend it.

Nothing here raises. Stages collect problems and hand them on; the edge prints them together.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    """How bad a problem is: an error stops its client, a warning is carried into the documents."""

    ERROR = "error"
    WARNING = "warning"


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A place in a file of the book.

    Attributes:
        file: path relative to the book folder, with forward slashes.
        line: line number [-], from 1; 0 when the whole file is meant.
        column: column number [-] in characters, from 1; 0 when the whole line is meant.
        path: the way to the value inside the file, for instance `farms[0].zones[2].area_ha`; may be empty.
    """

    file: str
    line: int = 0
    column: int = 0
    path: str = ""

    def __str__(self) -> str:
        """Return `file:line:column`, the form that editors jump to."""
        if self.line == 0:
            return self.file
        return f"{self.file}:{self.line}" + (f":{self.column}" if self.column else "")


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that is wrong in the book.

    Attributes:
        severity: error or warning.
        code: stable code in lower-case words with hyphens, for instance `unknown-key`.
        place: where it stands.
        found: what was found, in words, without a closing full stop.
        expected: what should stand there; may be empty.
        mend: what to do about it; never empty.
    """

    severity: Severity
    code: str
    place: Place
    found: str
    expected: str
    mend: str

    def __str__(self) -> str:
        """Return the problem on one line: place, severity, code, what is wrong, how to mend it."""
        wrong = f"{self.found}; expected {self.expected}" if self.expected else self.found
        return f"{self.place}: {self.severity} [{self.code}] {wrong}. To mend: {self.mend}."


def error(code: str, place: Place, found: str, expected: str, mend: str) -> Problem:
    """Return a problem of severity error; the arguments are those of `Problem`."""
    return Problem(Severity.ERROR, code, place, found, expected, mend)


def warning(code: str, place: Place, found: str, expected: str, mend: str) -> Problem:
    """Return a problem of severity warning; the arguments are those of `Problem`."""
    return Problem(Severity.WARNING, code, place, found, expected, mend)


def in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Return the problems without repeats, sorted by file, line, column, then code and text."""
    return tuple(sorted(dict.fromkeys(problems), key=lambda problem: (problem.place, problem.code, problem.found)))


def has_errors(problems: Iterable[Problem]) -> bool:
    """Return whether at least one of the problems is an error."""
    return any(problem.severity is Severity.ERROR for problem in problems)
