"""Every step and maximum of advice has words, and they hold its figures."""

from __future__ import annotations

import pytest

from soilrota.documents.step_words import cap_rule_words, has_cap_words, has_step_words, step_rule_words
from tests.documents.advice_ids import cap_ids, step_ids

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
