"""The hostile files are the same every time, enough, and go through the reader of grids one and all."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.hostile.making import hostile_files

ROOT = Path(__file__).resolve().parents[2]
#: Longest time that one file may take [s of processor time], and most memory above what making the files takes [byte].
LONGEST = 10.0
MOST_MEMORY = 1_000_000_000

#: Reads every file under a limit on memory; prints a line of JSON a file.
READER = """
import json, resource, sys, tempfile, time
from pathlib import Path
from soilrota.files import read_grid
import charset_normalizer, python_calamine
from tests.hostile.making import hostile_files

files = list(hostile_files())
with open("/proc/self/statm") as stream:
    now = int(stream.read().split()[0]) * resource.getpagesize()
resource.setrlimit(resource.RLIMIT_AS, (now + int(sys.argv[1]), now + int(sys.argv[1])))
with tempfile.TemporaryDirectory() as folder:
    file = Path(folder) / "incoming"
    for name, content in files:
        file.write_bytes(content)
        begin = time.process_time()
        grid, problems = read_grid(file, name)
        seconds = time.process_time() - begin
        rows = grid.rows if grid else ()
        wrong = [row.wrong for row in rows if row.wrong]
        print(json.dumps({
            "name": name,
            "seconds": seconds,
            "read": grid is not None,
            "rows": len(rows),
            "numbers": [row.number for row in rows][:5],
            "wrong": [[row.number, row.wrong.place.line, row.wrong.place.file, row.wrong.mend]
                      for row in rows if row.wrong],
            "problems": [[problem.code, problem.place.file, problem.place.line, problem.mend] for problem in problems],
            "notes": [problem.severity for problem in (grid.notes if grid else ())],
            "safe": all(character.isprintable() for problem in (*problems, *wrong) for character in problem.found),
        }))
"""


@pytest.fixture(scope="module")
def answers() -> dict[str, dict[str, object]]:
    """Return what the reader said of each file, read in a process of its own with little memory."""
    paths = os.pathsep.join((str(ROOT), str(ROOT / "engine")))
    command = [sys.executable, "-W", "error", "-c", READER, str(MOST_MEMORY)]
    done = subprocess.run(
        command, cwd=ROOT, env={**os.environ, "PYTHONPATH": paths}, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr[-2000:]
    assert done.stderr == ""
    lines = [json.loads(line) for line in done.stdout.splitlines()]
    return {line["name"]: line for line in lines}


def test_the_files_are_many_and_always_the_same() -> None:
    """Two hundred at least, no name twice, the same bytes each time."""
    first = {name: hash(content) for name, content in hostile_files()}
    again = [(name, hash(content)) for name, content in hostile_files()]
    assert len(again) >= 200
    assert list(first.items()) == again


def test_every_file_is_answered_in_time(answers: dict[str, dict[str, object]]) -> None:
    """No file raises, takes more than its time, or more memory than there is."""
    assert len(answers) >= 200
    assert {name: answer["seconds"] for name, answer in answers.items() if answer["seconds"] > LONGEST} == {}  # type: ignore[operator]


def test_every_problem_is_located(answers: dict[str, dict[str, object]]) -> None:
    """Either rows or a problem; problems name the file and the mend, those of a row its line, and can be printed."""
    for name, answer in answers.items():
        assert answer["read"] is (answer["problems"] == []), name
        assert not answer["read"] or answer["rows"], name
        for _, file, _, mend in answer["problems"]:  # type: ignore[attr-defined]
            assert (file, bool(mend)) == (name, True)
        for number, line, file, mend in answer["wrong"]:  # type: ignore[attr-defined]
            assert (file, bool(mend)) == (name, True)
            assert line >= number >= 1
        assert answer["safe"], name
        assert set(answer["notes"]) <= {"warning"}, name  # type: ignore[call-overload]


@pytest.mark.parametrize(
    ("name", "code", "line"),
    [
        ("million_columns.csv", "too-large", 1),
        ("million_empty_columns.csv", "too-large", 14),
        ("short_lines.csv", "too-large", 100_001),
        ("above_the_limit.csv", "too-large", 0),
        ("bomb.xlsx", "too-large", 0),
        ("bomb_ratio.xlsx", "too-large", 0),
        ("bomb_lying.xlsx", "damaged-workbook", 0),
        ("shared_text_bomb.xlsx", "too-large", 58),
        ("sheet_doctype.xlsx", "damaged-workbook", 0),
        ("sheet_cell_far_below.xlsx", "too-large", 1_048_576),
        ("sheet_absurd_reference.xlsx", "damaged-workbook", 9),
        ("encrypted.xlsx", "locked-workbook", 0),
        ("macros.xlsx", "not-a-table", 0),
        ("xls_named.csv", "not-a-table", 0),
        ("no_sheets.xlsx", "unknown-sheet", 0),
        ("encoded_cp500.csv", "encoding-not-told", 0),
        ("two_delimiters.csv", "delimiter-not-told", 1),
        ("empty.csv", "empty-document", 1),
    ],
)
def test_a_file_that_cannot_be_read_says_why(
    answers: dict[str, dict[str, object]], name: str, code: str, line: int
) -> None:
    """The whole file is refused, with the line where there is one."""
    assert [(found[0], found[2]) for found in answers[name]["problems"]] == [(code, line)]  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("name", "rows", "wrong"),
    [
        ("ten_thousand_one_bad.csv", 10_001, [7779]),
        ("quote_open.csv", 31, [10]),
        ("two_stray_quotes.csv", 32, [10]),
        ("quote_before_megabytes.csv", 90_001, [2]),
        ("nul_bytes.csv", 13, [7]),
        ("bad_byte.csv", 13, [6]),
        ("huge_cell.csv", 13, [7]),
        ("mixed_line_ends.csv", 13, []),
        ("lone_cr.csv", 13, []),
        ("right_to_left.csv", 13, []),
        ("cell_over_lines.csv", 31, []),
        ("ragged.csv", 13, []),
        ("encoded_cp1252.csv", 13, []),
        ("sheet_absurd_dimension.xlsx", 6, []),
        ("sheet_cell_twice.xlsx", 7, [9]),
        ("sheet_formula_without_value.xlsx", 7, [9]),
    ],
)
def test_one_bad_row_costs_one_row(
    answers: dict[str, dict[str, object]], name: str, rows: int, wrong: list[int]
) -> None:
    """The other rows are read."""
    answer = answers[name]
    assert (answer["rows"], [found[0] for found in answer["wrong"]]) == (rows, wrong)  # type: ignore[attr-defined]
