"""Problems and sums in words. No colour anywhere, so NO_COLOR has nothing to ask for."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, TextIO

if TYPE_CHECKING:
    from collections.abc import Iterable

    from soilrota.problems import Problem


def say(words: object, stream: TextIO | None = None) -> None:
    """Write words on a line of their own; on standard output where no stream is named."""
    (stream or sys.stdout).write(f"{words}\n")


def say_problems(problems: Iterable[Problem], stream: TextIO | None = None, before: str = "") -> None:
    """Write problems, one a line, each after the text `before`."""
    for problem in problems:
        say(f"{before}{problem}", stream)


def complain(words: str) -> None:
    """Write words on standard error after the name of the program."""
    say(f"soilrota: {words}", sys.stderr)


def counted(number: int, one: str, many: str = "") -> str:
    """Return a number with its noun.

    >>> counted(1, "error"), counted(2, "error"), counted(0, "client")
    ('1 error', '2 errors', '0 clients')
    """
    return f"{number} {one if number == 1 else many or one + 's'}"
