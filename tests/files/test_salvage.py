"""What can be read of a file with mistakes."""

from __future__ import annotations

from pathlib import Path

from soilrota.files import read_what_can_be, read_yaml

LABORATORY = "name: North Bench\ncountry: AU\nturnaround_working_days: 8\ncourier_days: 2\n"


def read(tmp_path: Path, text: str) -> tuple[object, tuple[str, ...]]:
    """Return what can be used of a laboratory's file, and the entries that lack something."""
    file = tmp_path / "x.yaml"
    file.write_text(text, encoding="utf-8")
    document, problems = read_what_can_be(file, "x.yaml", "laboratory")
    assert (read_yaml(file, "x.yaml", "laboratory")[0] is None) == any(one.severity == "error" for one in problems)
    return (None, ()) if document is None else (document.data, document.left_out)


def test_a_number_out_of_range_is_kept(tmp_path: Path) -> None:
    """It has the right kind, so that the checks across files can go on."""
    data, left_out = read(tmp_path, LABORATORY.replace("courier_days: 2", "courier_days: 99"))
    assert isinstance(data, dict)
    assert data["courier_days"] == 99
    assert left_out == ()


def test_an_optional_key_that_cannot_be_used_is_left_out(tmp_path: Path) -> None:
    """The rest of the file still counts; the entry is named."""
    data, left_out = read(tmp_path, LABORATORY + "receiving_weekdays: maybe\n")
    assert isinstance(data, dict)
    assert "receiving_weekdays" not in data
    assert left_out == ("",)


def test_nothing_is_salvaged_where_something_needed_is_missing(tmp_path: Path) -> None:
    """Without a needed value anything further would be a guess."""
    assert read(tmp_path, LABORATORY.replace("country: AU\n", "")) == (None, ())
    assert read(tmp_path, LABORATORY.replace("courier_days: 2", "courier_days: two")) == (None, ())
    assert read(tmp_path, "- x\n") == (None, ())
