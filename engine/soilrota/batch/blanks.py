"""Blanks that a new file still has: `__FILL__` and what is meant to stand there."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from soilrota.problems import Place, Problem, error

#: How a blank begins; what follows it up to the end of the value says what to write.
BLANK = "__FILL__"
_BLANK = re.compile(rf"{BLANK}([^#\"',\]}}]*)")


def blanks_in(root: Path, files: Iterable[Path]) -> Iterator[Problem]:
    """Yield an error `blank-left` for every blank of the files, by line; a file that cannot be read has none."""
    for path in files:
        try:
            text = path.read_bytes().decode("utf-8", errors="replace")
        except OSError:
            continue
        if BLANK not in text:
            continue
        name = path.relative_to(root).as_posix()
        for number, line in enumerate(text.splitlines(), start=1):
            for blank in _BLANK.finditer(line) if not line.lstrip().startswith("#") else ():
                yield _blank_left(Place(name, number, blank.start() + 1), blank[1].strip())


def with_blanks(problems: Iterable[Problem], blanks: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """Return the problems with the blanks, which take the place of what a schema says of the same line."""
    lines = {(blank.place.file, blank.place.line) for blank in blanks}
    others = (problem for problem in problems if (problem.place.file, problem.place.line) not in lines)
    return (*others, *blanks)


def _blank_left(place: Place, wanted: str) -> Problem:
    """Return the error of one blank."""
    what = wanted or "a value"
    return error("blank-left", place, "a blank that was not filled in", what, f"write {what} in place of the blank")
