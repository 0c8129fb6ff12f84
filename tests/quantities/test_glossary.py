"""The glossary of quantities."""

from __future__ import annotations

import re
from gettext import NullTranslations

import pytest

from soilrota.language import speaking
from soilrota.quantities import (
    Refusal,
    all_codes,
    analysis_inside,
    analysis_name,
    analyte,
    analytes,
    convert,
    format_value,
    method,
    split_code,
    unit_name,
)


@pytest.mark.parametrize("code", all_codes())
def test_every_code_is_whole(code: str) -> None:
    """An analyte, a method with a printed name, a unit with its words, limits in order."""
    found = method(*split_code(code))
    assert found is not None
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*\.[a-z0-9]+(-[a-z0-9]+)*", code)
    assert analysis_name(code) == found.name
    assert unit_name(found.unit)
    assert found.low < found.high
    assert found.decimals >= 0


def test_printed_names_are_not_shared() -> None:
    """Two analyses are never printed alike."""
    names = [analysis_name(code) for code in all_codes()]
    assert len(set(names)) == len(names)


def test_what_is_not_known() -> None:
    """Unknown ids are none, and a code without a name is shown as it is."""
    assert analyte("gold") is None
    assert method("ph", "gold") is None
    assert analysis_name("gold.dust") == "gold.dust"
    assert format_value("gold", "dust", 1.234) == "1.23"


def test_volume_and_mass_are_never_one_method() -> None:
    """A method by volume (mg/l) is another method than the same extract by mass (mg/kg)."""
    for found in analytes().values():
        for way in found.methods.values():
            assert (way.unit == "mg/l") == way.id.endswith("by-volume")


def test_nitrate_does_not_keep() -> None:
    """48 hours from sampling to the laboratory (British Columbia, soil nutrient testing)."""
    nitrate = analyte("nitrate-nitrogen")
    assert nitrate is not None
    assert nitrate.holding_days == 2


def test_halves_are_rounded_away_from_nought() -> None:
    """5.25 is printed 5.3, as a laboratory prints it, not 5.2 as binary rounding would."""
    assert format_value("ph", "cacl2", 5.25) == "5.3"
    assert format_value("phosphorus", "colwell", 27.5) == "28"
    assert format_value("potassium", "exchangeable", 0.5) == "0.50"


def test_totals_and_capacities_convert() -> None:
    """Total nitrogen by mass; a capacity as charge, whatever way it is written."""
    assert convert(2.2, "g/kg", "%", "nitrogen") == 0.22
    assert convert(85, "mmol(+)/kg", "cmol(+)/kg", "exchange-capacity") == 8.5
    assert convert(8.5, "meq/100g", "cmol(+)/kg", "exchange-capacity") == 8.5
    assert convert(0.05, "%", "mg/kg P", "phosphorus") == 500.0
    assert isinstance(convert(8.5, "mg/kg", "cmol(+)/kg", "exchange-capacity"), Refusal)


def test_names_are_said_in_the_language_that_is_spoken(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of a method and of an analyte alone; an unknown code is nobody's word, and the glossary stays English."""
    monkeypatch.setattr("soilrota.language.speech.catalogue_of", lambda _: _Spanish())
    said = [analysis_name(code) for code in ("nitrogen.kjeldahl", "nitrogen", "unheard-of.way")]
    assert said == ["N total (Kjeldahl)", "Nitrógeno", "unheard-of.way"]
    known = analyte("nitrogen")
    assert known is not None
    assert known.name == "Nitrogen"


def test_only_people_and_symbols_keep_a_capital_inside_a_sentence() -> None:
    """In every name of the glossary, in both languages; what follows the first letter stays."""
    people = ("Bray", "Colwell", "Mehlich", "Morgan", "Olsen")
    for language in ("en", "es"):
        with speaking(language):
            for code in all_codes():
                name, within = analysis_name(code), analysis_inside(code)
                assert name[1:] == within[1:]
                kept = name.startswith(people) or len(re.split(r"[ (-]", name)[0]) < len("Iron") or name[1].isupper()
                assert (name == within) is kept, name


class _Spanish(NullTranslations):
    """A catalogue of two texts."""

    def gettext(self, message: str) -> str:
        """Return a text in Spanish where it is one of the two."""
        return {"Total N (Kjeldahl)": "N total (Kjeldahl)", "Nitrogen": "Nitrógeno"}.get(message, message)
