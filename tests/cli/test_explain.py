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


def test_a_judgement_is_traced(capsys: pytest.CaptureFixture[str]) -> None:
    """With an analyte: the judgement, and what it rests on."""
    assert main(["explain", str(BOOK), "anvil-creek", "north-flat", "phosphorus"]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert "Colwell P of 35 mg/kg is near the line" in out
    assert "source: Gourley" in out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("barn", "potassum"), "did you mean potassium?"),
        (("brn", "potassium"), "did you mean barn?"),
        (("north-flat", "xyz"), "there is carbon-nitrogen-ratio"),
    ],
)
def test_a_judgement_that_is_not_there(capsys: pytest.CaptureFixture[str], words: tuple[str, str], said: str) -> None:
    """Exit code 2, and what could be asked for."""
    assert main(["explain", str(BOOK), "anvil-creek", *words]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert said in err


def test_a_zone_without_results(capsys: pytest.CaptureFixture[str]) -> None:
    """It is said."""
    assert main(["explain", str(BOOK), "juniper-start", "house", "ph"]) == 2
    assert "has no" in capsys.readouterr().err


def test_advice_is_traced(capsys: pytest.CaptureFixture[str]) -> None:
    """With an input: every step, what it adds up to, and its source."""
    assert main(["explain", str(BOOK), "anvil-creek", "ridge", "lime", "--as-of", "2027-02-15"]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert "Together: 1.889 t/ha." in out
    assert "source: Southern Farming Systems" in out
