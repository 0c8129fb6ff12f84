"""Every step and maximum of advice has words, and they hold its figures."""

from __future__ import annotations

import pytest

from soilrota.documents.step_words import cap_rule_words, has_cap_words, has_step_words, step_rule_words
from soilrota.model.findings import Fact
from tests.documents.advice_ids import cap_ids, step_ids
from tests.documents.shouting import shout, unsaid

LANGUAGE = "en-AU"


def test_the_rules_are_found_where_they_are_made() -> None:
    """The reading of the source finds those that everybody knows of."""
    assert {"lift-topsoil", "build-up", "removal", "planned", "not-below-nought", "demand"} <= step_ids()
    assert {"most-dressings", "legal"} <= cap_ids()


@pytest.mark.parametrize("rule", sorted(step_ids()))
def test_every_step_has_words(rule: str) -> None:
    """A new rule without words fails here."""
    assert has_step_words(rule)
    assert step_rule_words(rule, {}, LANGUAGE)


@pytest.mark.parametrize("rule", sorted(cap_ids()))
def test_every_maximum_has_words(rule: str) -> None:
    """A new maximum without words fails here."""
    assert has_cap_words(rule)
    assert cap_rule_words(rule, {}, LANGUAGE)


def test_words_hold_the_figures() -> None:
    """Numbers in the client's form, ids as words."""
    facts = {"ph": 4.6, "target": 5.2, "act_below": 5.0, "top_cm": 0.0, "bottom_cm": 10.0}
    assert step_rule_words("lift-topsoil", facts, LANGUAGE) == (
        "To lift the topsoil (0–10 cm) from pH 4.6 to pH 5.2; liming starts below pH 5"
    )
    found = step_rule_words(
        "build-up", {"result": 18.0, "line": 30.0, "unit": "mg/kg", "harvests": 1, "years": 4}, "de"
    )
    assert found == "To lift the soil from 18 mg/kg towards its line of 30 mg/kg, the share of 1 of 4 years"
    assert step_rule_words("target-met", {"share": 4.5, "line": 6.0, "top_cm": 0, "bottom_cm": 10}, "de") == (
        "The sodium share of 4,5% in 0–10 cm is not above its line of 6%"
    )


def test_a_rule_of_nobody_is_said_by_its_name() -> None:
    """Nothing of a working is left out; an unknown maximum is the practice's own."""
    assert not has_step_words("some-new-rule")
    assert step_rule_words("some-new-rule", {}, LANGUAGE) == "Some new rule"
    assert cap_rule_words("river-block", {}, LANGUAGE) == "the practice's own maximum (river block)"


#: Figures that make steps and maxima say all they can.
FACTS: dict[str, Fact] = {
    "top_cm": 0.0, "bottom_cm": 10.0, "ph": 4.6, "target": 5.2, "act_below": 5.0, "result": 18.0, "line": 30.0,
    "unit": "mg/kg", "harvests": 1, "years": 4, "share": 9.5, "class": "very-low", "crop": "field-pea", "year": 2027,
    "leaves": "grain and straw", "target_yield": 3.5, "protein_percent": 11.5, "rate_kg_ha": 40.0, "product": "UREA",
    "day": 5, "produce": ("2027 winter wheat (wheat)", "2028 lucerne (lucerne-hay)"), "reason": "not-in-edition",
    "fertilisers": ("mono-ammonium phosphate",), "dressings": 2, "one_dressing": 4.0, "borrowed": "XX",
    "use": "first-cut silage", "index": "index-2-minus", "caution": "Check it.", "kg_p2o5_ha": 20.0,
}  # fmt: skip


@pytest.mark.parametrize(
    "dropped", [(), ("share",), ("years",), ("leaves",), ("protein_percent",), ("day",), ("class",)]
)
def test_no_step_is_left_in_english(dropped: tuple[str, ...], monkeypatch: pytest.MonkeyPatch) -> None:
    """Each of its forms comes out of the catalogue, ids and words of tables with it."""
    shout(monkeypatch)
    facts = {name: value for name, value in FACTS.items() if name not in dropped}
    for rule in sorted(step_ids()):
        assert unsaid(step_rule_words(rule, facts, "ja")) == []
        assert unsaid(step_rule_words(rule, facts | {"result": 40.0}, "ja")) == []


@pytest.mark.parametrize("dropped", ["", "borrowed"])
def test_no_maximum_is_left_in_english(dropped: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Words of the law's table with it."""
    shout(monkeypatch)
    facts = {name: value for name, value in FACTS.items() if name != dropped}
    for rule in sorted(cap_ids()):
        assert unsaid(cap_rule_words(rule, facts, "ja")) == []
    assert unsaid(cap_rule_words("x-x", {}, "ja")) == []
