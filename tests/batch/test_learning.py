"""A laboratory's file drafted from a file of its results."""

from __future__ import annotations

from pathlib import Path

from soilrota.batch.learning import learn


def test_a_draft_has_its_modeline(tmp_path: Path) -> None:
    """The first line leads an editor to the schema."""
    file = tmp_path / "results.csv"
    file.write_bytes(b"Bag,Olsen P mg/kg\nB-1,12.5\nB-2,14\n")
    draft, problems = learn(file)
    assert problems == ()
    assert draft is not None
    first, *rest = draft.splitlines()
    assert first.startswith("# yaml-language-server: $schema=file://")
    assert "        analysis: phosphorus.olsen" in rest


def test_a_file_that_is_no_table(tmp_path: Path) -> None:
    """No draft, and the reason under the file's own name."""
    draft, problems = learn(tmp_path / "none.csv")
    assert draft is None
    assert [problem.place.file for problem in problems] == ["none.csv"]
