"""Values and names: decimals, units, the decimal sign of the language, names in a sentence."""

from __future__ import annotations

import pytest

from soilrota.documents.value_words import bare_figure, began, is_named, name_of, value_words
from soilrota.guidelines.derived_codes import derived_codes
from soilrota.language import speaking
from soilrota.quantities import all_codes
from tests.documents.shouting import shout, unsaid


def test_a_value_has_the_decimals_and_the_unit_of_its_method() -> None:
    """A percent sign stands close; bare units are not written."""
    assert value_words("sodium-share", "derived", 6.25, "%") in {"6.2%", "6.3%"}
    assert value_words("ph", "cacl2", 5.25, "pH", "<") == "<5.3"
    assert value_words("conductivity", "ec-1-5", 0.4, "dS/m") == "0.40 dS/m"


def test_a_value_has_the_decimal_sign_of_the_language() -> None:
    """Measured and reckoned values alike."""
    with speaking("es"):
        assert value_words("conductivity", "ec-1-5", 0.4, "dS/m", ">") == ">0,40 dS/m"
        assert "." not in value_words("sodium-share", "derived", 6.25, "%")


def test_a_figure_can_be_had_without_its_unit() -> None:
    """Where the unit stands in the head of a column; the space before a Spanish per cent is no part of it."""
    with speaking("es"):
        assert bare_figure(value_words("sodium-share", "derived", 6.0, "%")) == "6,0"
        assert bare_figure(value_words("conductivity", "ec-1-5", 0.4, "dS/m", "<")) == "<0,40"


def test_names_stand_in_a_sentence_and_begin_one() -> None:
    """Signs keep their letters."""
    assert name_of("sodium-share.derived") == "sodium share of the exchange capacity"
    assert began(name_of("ph.cacl2")) == "pH (CaCl2)"
    assert name_of("organic-carbon.walkley-black") == "organic carbon (Walkley-Black)"
    assert name_of("profile-nitrogen") == "mineral nitrogen of the profile"


def test_everything_that_is_reckoned_or_a_property_is_named_in_the_language(monkeypatch: pytest.MonkeyPatch) -> None:
    """Names come out of the catalogue."""
    shout(monkeypatch)
    codes = (*derived_codes(), "clay-percent", "crop", "texture", "profile-nitrogen")
    assert [code for code in codes if unsaid(name_of(code))] == []
    assert all(is_named(code) for code in (*codes, *all_codes()))
