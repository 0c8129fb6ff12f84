"""`soilrota explain` on the command line."""

from __future__ import annotations

import pytest

from soilrota.cli import main
from tests.documents.made import BOOK


def test_an_explanation_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 0, the explanation on standard output."""
    assert main(["explain", str(BOOK), "cobb-hill-dairy", "night", "--as-of", "2027-02-15"]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert "Write the date of the spreading" in out


def test_a_wrong_name_is_said(capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 2, one line on standard error."""
    assert main(["explain", str(BOOK), "cobb-hill-dairy", "nght", "--as-of", "2027-02-15"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "did you mean night?" in err
