"""Figures of workings: names in plain words, units, numbers in the client's form."""

from __future__ import annotations

from datetime import date

import pytest

from soilrota.documents.advice_facts import fact_lines, fact_words, is_named
from soilrota.language import speaking
from soilrota.model.advice import Need
from tests.documents.advised import CLIENTS, advised
from tests.documents.shouting import shout, unsaid

LANGUAGE = "en-AU"


@pytest.mark.parametrize("client", CLIENTS)
def test_every_figure_of_the_example_book_has_a_name(client: str) -> None:
    """Steps and maxima alike."""
    needs = [one for one in advised(client)[1].needs if isinstance(one, Need)]
    pairs = {(one.rule, name) for need in needs for one in (*need.steps, *need.caps) for name in one.facts}
    assert sorted(pair for pair in pairs if not is_named(*pair)) == []


def test_units_follow_the_step() -> None:
    """A share of sodium is a percentage, a result has the unit of its test; hidden names stay hidden."""
    facts = {"share": 9.5, "line": 6.0, "rule": "x"}
    assert list(fact_lines("sodium-to-change", facts, LANGUAGE)) == ["sodium share: 9.5%", "line: 6%"]
    assert next(fact_lines("target-met", {"line": 6.0, "share": 5.0}, LANGUAGE)) == "line: 6%"
    found = list(fact_lines("build-up", {"result": 18.0, "unit": "mg/kg", "per_unit": 3.25}, LANGUAGE))
    assert found == ["result: 18 mg/kg", "lifts the test by one: 3.25 kg/ha for 1 mg/kg"]


def test_values_are_words() -> None:
    """Days in full, ids without hyphens, years without separators, analyses by name, regions by country."""
    assert fact_words("day", date(2027, 2, 1), LANGUAGE) == "1 February 2027"
    assert fact_words("between", ("clay-loam", "light-clay"), LANGUAGE) == "clay loam and light clay"
    assert fact_words("year", 2027, LANGUAGE) == "2027"
    assert fact_words("analysis", "phosphorus.colwell", LANGUAGE) == "Colwell P"
    assert fact_words("method", "cacl2", LANGUAGE) == "pH (CaCl2)"
    assert fact_words("borrowed", "AU-VIC", LANGUAGE) == "Australia (VIC)"
    assert fact_words("rain_mm", 1250.5, "de") == "1.250,5"


def test_figures_are_said_in_the_language(monkeypatch: pytest.MonkeyPatch) -> None:
    """Names, words and ids; citations, units and the book's names are not."""
    with speaking("es"):
        assert fact_words("borrowed", "NZ", "es") == "Nueva Zelanda"
    shout(monkeypatch)
    needs = [one for one in advised("anvil-creek")[1].needs if isinstance(one, Need)]
    kept = {"bulk_density_source", "product"}
    said = [
        line
        for need in needs
        for one in (*need.steps, *need.caps)
        for line in fact_lines(one.rule, {name: fact for name, fact in one.facts.items() if name not in kept}, "ja")
    ]
    assert said
    assert {word for line in said for word in unsaid(line)} <= {"Australia", "cmol(+)/kg", "Colwell"}
    assert (
        next(fact_lines("build-up", {"per_unit": 3.25, "unit": "mg/kg"}, "ja"))
        == "LIFTS THE TEST BY ONE: 3.25 KG/HA FOR 1 mg/kg"
    )
    assert (
        fact_words("produce", ("2027 field peas (lupin-grain)", "odd"), "ja") == "2027 FIELD PEAS (LUPIN GRAIN) AND odd"
    )
    assert fact_words("analysis", "ph.no-such-way", "ja") == "ph BY no such way"
