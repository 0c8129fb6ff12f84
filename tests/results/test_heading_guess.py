"""What headings probably mean; only a draft is made of it."""

from __future__ import annotations

import pytest

from soilrota.quantities import analytes
from soilrota.results.heading_guess import Guess, guess_analysis, guess_role


@pytest.mark.parametrize(
    ("heading", "code", "unit"),
    [
        ("P Colwell mg/kg", "phosphorus.colwell", "mg/kg"),
        ("Olsen-P ppm", "phosphorus.olsen", "ppm"),
        ("Olsen P (mg/l)", "phosphorus.olsen-by-volume", "mg/l"),
        ("Phosphate P2O5 Olsen mg/kg", "phosphorus.olsen", "mg/kg P2O5"),
        ("9B1 Phosphorus [mg/kg]", "phosphorus.colwell", "mg/kg"),
        ("pH 1:5 water", "ph.water", ""),
        ("EC 1:5 dS/m", "conductivity.ec-1-5", "dS/m"),
        ("Exch. Ca meq/100g", "calcium.exchangeable", "meq/100g"),
        ("exch_K_(cmol(+)/kg)", "potassium.exchangeable", "cmol(+)/kg"),
        ("K (ammonium nitrate) mg/l", "potassium.ammonium-nitrate-by-volume", "mg/l"),
        ("Bray-1 P ppm", "phosphorus.bray-1", "ppm"),
        ("S KCl-40", "sulphur.kcl-40", ""),
        ("Walkley-Black OC %", "organic-carbon.walkley-black", "%"),
    ],
)
def test_analyte_and_method_that_a_heading_names(heading: str, code: str, unit: str) -> None:
    """Names, symbols, codes, forms; the unit tells a method by volume from one by mass."""
    assert guess_analysis(heading) == Guess(code, is_sure=True, unit=unit)


@pytest.mark.parametrize("heading", ["Soil pH", "P mg/kg", "Nitrate N", "Zinc", "Org. C %", "PBI", "K2O mg/100g"])
def test_a_method_is_never_made_up(heading: str) -> None:
    """A heading that names no method is near some analysis, not sure of it."""
    guess = guess_analysis(heading)
    assert guess.code
    assert not guess.is_sure


@pytest.mark.parametrize("heading", ["Grower", "Moisture %", "Paddock", "", "Remarks"])
def test_a_heading_without_an_analyte(heading: str) -> None:
    """What names no analyte is near none."""
    assert guess_analysis(heading).code == ""


def test_every_name_of_the_glossary_is_known_again() -> None:
    """The printed name of each method leads back to it; with its unit, where only the unit tells two apart."""
    wrong = {}
    for analyte in analytes().values():
        for method in analyte.methods.values():
            found = guess_analysis(f"{analyte.name} {method.name}", method.unit)
            if found.code != f"{analyte.id}.{method.id}" or not found.is_sure:
                wrong[f"{analyte.id}.{method.id}"] = found
    assert wrong == {}


@pytest.mark.parametrize(
    ("label", "role"),
    [
        ("Sample No.", "sample"),
        ("DEPTH (cm)", "depth"),
        ("Date received", "received"),
        ("Result", "value"),
        ("Zeal", ""),
    ],
)
def test_facts(label: str, role: str) -> None:
    """Words for facts, whatever stands between them."""
    assert guess_role(label) == role
