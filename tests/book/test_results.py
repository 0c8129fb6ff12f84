"""All results of a client."""

from __future__ import annotations

from pathlib import Path

from soilrota.book import read_results
from tests.documents.made import BOOK, example


def test_every_issue_is_read() -> None:
    """What stands, and what a later issue replaced."""
    results, problems = read_results(BOOK, "dune-end-sheep")
    client = example("dune-end-sheep")
    assert problems == ()
    assert set(client.results) < set(results)
    assert len(results) == len(client.results) + 7
    assert {one.issue for one in results if one.report == "nb-2025-dune-03"} == {1, 2}


def test_a_file_that_cannot_be_read(tmp_path: Path) -> None:
    """Its problem is told; the others are read. A client without results has none."""
    folder = tmp_path / "records" / "results" / "anvil-creek"
    folder.mkdir(parents=True)
    (folder / "r1.csv").write_text("report;sampled\n", encoding="utf-8")
    results, problems = read_results(tmp_path, "anvil-creek")
    assert results == ()
    assert [problem.code for problem in problems] == ["not-commas"]
    assert read_results(tmp_path, "juniper-start") == ((), ())
