"""Blanks of new files are errors with their places."""

from __future__ import annotations

from pathlib import Path

from soilrota.batch.blanks import blanks_in, with_blanks
from soilrota.problems import Place, error


def test_each_blank_has_its_place_and_what_is_wanted(tmp_path: Path) -> None:
    """A blank in a value, one in quotes and one in a list are found; a comment is none."""
    path = tmp_path / "clients" / "a" / "client.yaml"
    path.parent.mkdir(parents=True)
    text = (
        '# fill __FILL__ here\nname: __FILL__ the name\nzones:\n  - {id: "__FILL__", size: __FILL__ hectares, x: 1}\n'
    )
    path.write_text(text, encoding="utf-8")
    found = [(str(problem.place), problem.expected) for problem in blanks_in(tmp_path, [path])]
    assert found == [
        ("clients/a/client.yaml:2:7", "the name"),
        ("clients/a/client.yaml:4:11", "a value"),
        ("clients/a/client.yaml:4:28", "hectares"),
    ]


def test_a_file_that_is_not_there_has_no_blanks(tmp_path: Path) -> None:
    """Whether a file must be there is said elsewhere."""
    assert list(blanks_in(tmp_path, [tmp_path / "client.yaml"])) == []


def test_a_blank_takes_the_place_of_what_else_is_said_of_its_line() -> None:
    """The schema's opinion of a blank is left out; problems of other lines stay."""
    of_blank, other = Place("client.yaml", 2, 7), Place("client.yaml", 3, 1)
    wrong = [error("not-a-number", of_blank, "x", "y", "z"), error("unknown-key", other, "x", "y", "z")]
    blank = error("blank-left", of_blank, "x", "y", "z")
    assert [problem.code for problem in with_blanks(wrong, (blank,))] == ["unknown-key", "blank-left"]
