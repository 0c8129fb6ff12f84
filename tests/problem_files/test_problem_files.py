"""Broken files and the problems expected of each: adding a folder to `cases` adds a case.

`expected.txt` holds one problem a line, `line:column severity code`; an empty file expects none. `form.json`, where it
stands, holds the other form in which a table is read. The numbers in front of the names are those of the table of bad
inputs that the reader was written against, 50 on for tables, 70 on for maps, 80 on for tables of another form.
"""

from __future__ import annotations

import json
import time
from pathlib import Path

import pytest

from soilrota.files import OtherForm, read_csv, read_geojson, read_yaml
from soilrota.problems import Problem

CASES = sorted(path for path in (Path(__file__).parent / "cases").iterdir() if path.is_dir())
#: Far above what a case takes (milliseconds), far below what a bomb would (seconds and more).
LONGEST_S = 2.0


def read(file: Path) -> tuple[Problem, ...]:
    """Read a file of a case by its kind."""
    if file.suffix == ".csv":
        form = file.with_name("form.json")
        other = OtherForm(**json.loads(form.read_text(encoding="utf-8"))) if form.exists() else None
        return read_csv(file, file.name, file.stem, form=other)[1]
    if file.suffix == ".geojson":
        return read_geojson(file, file.name)[1]
    return read_yaml(file, file.name, file.stem)[1]


def shown(problems: tuple[Problem, ...]) -> str:
    """Return problems as `expected.txt` holds them."""
    return "".join(
        f"{problem.place.line}:{problem.place.column} {problem.severity} {problem.code}\n" for problem in problems
    )


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_broken_file_gives_located_problems(case: Path) -> None:
    """Each problem is located, says how to mend it, and comes at once; no case raises."""
    (file,) = (path for path in case.iterdir() if path.name not in {"expected.txt", "form.json"})
    started = time.perf_counter()
    problems = read(file)
    assert time.perf_counter() - started < LONGEST_S
    assert shown(problems) == (case / "expected.txt").read_text(encoding="utf-8")
    assert all(problem.mend and problem.found and problem.place.file == file.name for problem in problems)


def test_there_are_cases() -> None:
    """The folder of cases was found."""
    assert len(CASES) > 60
