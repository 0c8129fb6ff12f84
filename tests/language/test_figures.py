"""Numbers, counts and lists by language."""

from __future__ import annotations

import pytest

from soilrota.language import speaking
from soilrota.language.figures import counted, digits, joined, locale_of, money, number, with_unit


@pytest.mark.parametrize(
    ("language", "written"), [("en-AU", "1,234.5"), ("en-US", "1,234.5"), ("es-ES", "1.234,5"), ("es-US", "1,234.5")]
)
def test_numbers_follow_language_and_country(language: str, written: str) -> None:
    """The country decides too: Spanish in the United States has the point (CLDR, through Babel)."""
    assert number(1234.5, language) == written
    with speaking(language):
        assert digits("<0.25") == f"<0{written[-2]}25"


def test_decimals_are_at_most_so_many() -> None:
    """Nothing is padded, nothing is printed beyond what was asked for."""
    assert [number(value, "en-GB", 2) for value in (3, 3.1, 3.14159)] == ["3", "3.1", "3.14"]
    assert number(2.5, "en-GB", 0) == "2"


def test_lists_are_joined_in_the_language() -> None:
    """Any iterable, empty ones too."""
    assert joined([]) == ""
    with speaking("es"):
        assert joined(iter(["a", "b", "c"])) == "a, b y c"


def test_counts_have_their_nouns() -> None:
    """A noun without words in the catalogue stays English."""
    assert [counted(count, "entry", "entries") for count in (0, 1, 2)] == ["0 entries", "1 entry", "2 entries"]


def test_a_tag_becomes_a_locale() -> None:
    """Territories are kept."""
    assert locale_of("en-AU").territory == "AU"


@pytest.mark.parametrize(
    ("currency", "language", "written"),
    [
        ("AUD", "en-AU", "-$1,234"),
        ("AUD", "es", "-1.234\xa0AUD"),
        ("EUR", "es-ES", "-1.234\xa0€"),
        ("ARS", "es-AR", "-$1.234"),
        ("AUD", "es-AR", "-AUD\xa01.234"),
        ("EUR", "es-CL", "EUR\xa0-1.234"),
        ("", "es", "-1.234"),
    ],
)
def test_money_stands_as_the_country_writes_it(currency: str, language: str, written: str) -> None:
    """The place of the sign is the locale's (CLDR, through Babel); letters never touch the figure."""
    assert money(-1234.4, currency, language) == written


def test_a_per_cent_stands_as_the_language_sets_it() -> None:
    """Spanish keeps a space before the sign (Ortografía de la lengua española, 2010), where no line breaks."""
    assert [with_unit("2.34", "%"), with_unit("35", "mg/kg"), with_unit("5.1", "")] == ["2.34%", "35 mg/kg", "5.1"]
    with speaking("es"):
        assert [with_unit("2,34", "%"), with_unit("35", "mg/kg")] == ["2,34\xa0%", "35 mg/kg"]
