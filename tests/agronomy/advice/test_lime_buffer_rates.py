"""Rates by buffers, against the printed tables of their states."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.agronomy.advice.lime import LimeAsked, lime_need
from soilrota.guidelines.lime_rules import rule_row
from soilrota.model.advice import Need, NoNeed
from soilrota.model.judgement import WhyNot
from tests.agronomy.advice.grounds import topsoil, wanted_ph

#: One short ton an acre [t/ha], from the definitions of pound and acre; that of surveyors differs by 4 millionths.
_SHORT_TON = 2000 * 0.45359237 / 1000 / 0.40468564224
_OREGON = [line for branch in rule_row("oregon-sikora")["branches"] for line in branch]


@pytest.mark.parametrize("line", _OREGON, ids=lambda line: str(line["buffer"]))
def test_table_of_oregon(line: dict[str, object]) -> None:
    """EM 9585: every printed rate, up to the maximum, for 6 inches; twice as much for 12."""
    rates = line["rates"]
    assert isinstance(rates, list)
    for target, rate in zip(rule_row("oregon-sikora")["targets"], rates, strict=True):
        ground = topsoil("US-OR", ph_water=4.5, buffer_sikora=float(str(line["buffer"])), targets=(wanted_ph(target),))
        once, twice = lime_need(ground), lime_need(ground, LimeAsked(depth_cm=30.48))
        assert isinstance(once, Need)
        assert isinstance(twice, Need)
        assert once.steps[0].amount == pytest.approx(rate * _SHORT_TON, rel=1e-5)
        assert twice.steps[0].amount == pytest.approx(2 * rate * _SHORT_TON, rel=1e-5)
        assert once.amount == pytest.approx(min(rate * _SHORT_TON, once.caps[0].amount), rel=1e-5)


def test_no_lime_where_the_target_is_met_whatever_the_buffer() -> None:
    """EM 9585 says so."""
    need = lime_need(topsoil("US-OR", ph_water=6.1, buffer_sikora=6.0, targets=(wanted_ph(6.0),)))
    assert isinstance(need, Need)
    assert need.amount == 0


def test_ends_of_oregon() -> None:
    """Above the table nothing is said; below it the last line stands, with a caution; a buffer must be a number."""
    above = lime_need(topsoil("US-OR", ph_water=4.5, buffer_sikora=7.0, targets=(wanted_ph(5.6),)))
    assert isinstance(above, NoNeed)
    assert above.refused.why is WhyNot.OUTSIDE_CALIBRATION
    below = lime_need(topsoil("US-OR", ph_water=4.0, buffer_sikora=4.5, targets=(wanted_ph(5.6),)))
    assert isinstance(below, Need)
    assert below.steps[0].amount == pytest.approx(6.1 * _SHORT_TON, rel=1e-5)
    assert "beyond-table" in below.cautions
    ground = topsoil("US-OR", ph_water=4.5, buffer_sikora=6.0, targets=(wanted_ph(5.6),))
    censored = tuple(replace(one, qualifier="<") if one.analyte == "buffer-ph" else one for one in ground.results)
    found = lime_need(replace(ground, results=censored))
    assert isinstance(found, NoNeed)
    assert found.refused.why is WhyNot.CENSORED


@pytest.mark.parametrize(
    ("place", "beside", "target"),
    [
        ("US-NC", {"buffer_mehlich": 6.0}, 6.8),
        ("US-IA", {"buffer_sikora": 6.0}, 6.2),
        ("US-PA", {"acidity": 6.0}, 6.2),
    ],
)
def test_targets_that_a_rule_has_no_rate_for(place: str, beside: dict[str, float], target: float) -> None:
    """North Carolina ends at 6.6; Iowa and Pennsylvania print some targets alone."""
    found = lime_need(topsoil(place, ph_water=5.0, targets=(wanted_ph(target),), **beside))
    assert isinstance(found, NoNeed)
    assert found.refused.facts["reason"] == "target-not-in-rule"


@pytest.mark.parametrize(
    ("place", "needs"), [("US-NC", "buffer-ph.mehlich"), ("US-IA", "buffer-ph.sikora"), ("US-OR", "buffer-ph.sikora")]
)
def test_a_buffer_must_have_been_measured(place: str, needs: str) -> None:
    """By the rule's own method."""
    found = lime_need(topsoil(place, ph_water=5.0, targets=(wanted_ph(6.0),)))
    assert isinstance(found, NoNeed)
    assert found.refused.facts == {"needs": (needs,)}
