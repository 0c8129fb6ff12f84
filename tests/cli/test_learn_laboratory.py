"""`soilrota learn-laboratory` on the command line."""

from __future__ import annotations

from pathlib import Path

import pytest

from soilrota.cli import main


def test_the_draft_is_printed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 0, the draft and nothing else on standard output."""
    file = tmp_path / "results.csv"
    file.write_bytes(b"Bag;Olsen P mg/kg\nB-1;12,5\nB-2;14\n")
    assert main(["learn-laboratory", str(file)]) == 0
    out, err = capsys.readouterr()
    assert out.startswith("# yaml-language-server")
    assert 'decimal: ","' in out
    assert "fill in the blanks" in err


def test_what_cannot_be_read_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 1, nothing on standard output, the reason on standard error."""
    assert main(["learn-laboratory", str(tmp_path / "none.csv")]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert "none.csv: error [" in err
