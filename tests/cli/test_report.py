"""`soilrota report` on the command line."""

from __future__ import annotations

from pathlib import Path

import pytest

from soilrota.cli import main
from tests.acceptance.signed_book import CLIENT, DAY, make_signable


def test_reports_are_made_and_their_places_said(book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 0; a line a farm on standard output."""
    make_signable(book)
    out = tmp_path / "out"
    assert main(["report", str(book), CLIENT, "--out", str(out), "--as-of", DAY]) == 0
    said, wrong = capsys.readouterr()
    file = out / "drafts" / CLIENT / "farm_report-home.pdf"
    assert said == f"{file}: a draft, Ann Lee must sign\n"
    assert wrong == ""
    assert file.read_bytes().startswith(b"%PDF")
    assert main(["sign", str(book), CLIENT, "--as-of", DAY, "--yes"]) == 0
    capsys.readouterr()
    assert main(["report", str(book), CLIENT, "--out", str(out), "--farm", "home", "--as-of", DAY]) == 0
    assert capsys.readouterr().out == f"{out / 'clients' / CLIENT / 'farm_report-home.pdf'}: signed\n"
    assert not file.exists()


def test_nothing_to_report(book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 2, with the reason on standard error."""
    assert main(["report", str(book), CLIENT, "--out", str(tmp_path / "out")]) == 2
    assert f"there is nothing to report: {CLIENT} has no results yet" in capsys.readouterr().err
    assert main(["report", str(make_signable(book)), CLIENT, "--out", str(tmp_path / "out"), "--farm", "hom"]) == 2
    assert "did you mean home?" in capsys.readouterr().err
