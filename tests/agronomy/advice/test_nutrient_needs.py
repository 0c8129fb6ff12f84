"""Which result speaks of a nutrient, which rule holds, what is taken off: on the example book."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import cache
from math import fsum
from typing import Any

import pytest

from soilrota.agronomy.advice.nutrient_needs import TESTED, Choices, nutrient_needs
from soilrota.agronomy.advice.removal import to_element
from soilrota.agronomy.derived.intervals import Doubtful
from soilrota.agronomy.judging import Judging, judge_zone, reckoning_for
from soilrota.guidelines.choosing import sets_for
from soilrota.model.advice import Cap, Input, Need, NoNeed
from soilrota.model.client import Client, Zone
from soilrota.model.judgement import WhyNot, ZoneJudgement
from soilrota.results.history import comparability_key
from tests.agronomy.advice.nutrient_cases import product
from tests.documents.made import example

ON = date(2027, 2, 10)
RAIN = Doubtful(250, 180, 330)


@cache
def judged(client_id: str, zone_id: str) -> tuple[Client, Zone, tuple[ZoneJudgement, ...]]:
    """Return a client of the example book, one of its zones, and what is judged of it."""
    client = example(client_id)
    zone = next(zone for farm in client.farms for zone in farm.zones if zone.id == zone_id)
    crops = tuple(row.crop for row in client.cropping if row.zone == zone_id)
    by = Judging(sets_for(client, zone), comparability_key, reckoning_for(zone, crops), crops=crops)
    found = (judge_zone(client, zone, protocol, by) for protocol in zone.protocols)
    return client, zone, tuple(one for one in found if one)


def needs(client_id: str, zone_id: str, on: date = ON, **choices: Any) -> dict[Input, Need | NoNeed]:
    """Return the needs of a zone by input."""
    client, zone, judgements = judged(client_id, zone_id)
    found = nutrient_needs(client, zone, judgements, Choices(on, rain_mm=RAIN, **choices))
    assert [one.input for one in found] == [*TESTED, Input.NITROGEN]
    return {one.input: one for one in found}


def there(one: Need | NoNeed) -> Need:
    """Return a need that is there."""
    assert isinstance(one, Need), one
    return one


def test_what_was_measured_is_never_called_unmeasured() -> None:
    """Ellery's exchangeable potassium is described in classes, without a line; its sulphur was never measured."""
    found = needs("ellery-orchard", "early")
    for nutrient in (Input.POTASSIUM, Input.MAGNESIUM):
        missing = found[nutrient]
        assert isinstance(missing, NoNeed)
        assert (missing.refused.why, missing.refused.facts) == (WhyNot.RULE_VOID, {"reason": "no-line"})
    sulphur = found[Input.SULPHUR]
    assert isinstance(sulphur, NoNeed)
    assert sulphur.refused.why is WhyNot.NOT_MEASURED


def test_arable_ground_in_the_north() -> None:
    """Far rigg: K Index 1, winter barley 7.5 t/ha, grain and straw: 78.75 + 30 kg K2O/ha; nothing of what is high."""
    barley = there(needs("hazel-rigg", "far-rigg")[Input.POTASSIUM])
    assert barley.amount == pytest.approx(to_element(7.5 * 10.5 + 30, "K2O", Input.POTASSIUM))
    assert {"local-rules", "wet-or-frozen-ground", "run-off"} <= set(barley.cautions)
    high = there(needs("hazel-rigg", "castle")[Input.PHOSPHORUS])
    assert (high.amount, high.high, high.caps[0].rule) == (0.0, 0.0, "above-limit")
    assert "local-rules" not in high.cautions


def test_the_budget_is_for_where_its_figures_are_from() -> None:
    """In England no budget was read; in Australia a profile of the season that is asked for gives one."""
    refused = needs("hazel-rigg", "castle")[Input.NITROGEN]
    assert isinstance(refused, NoNeed)
    assert refused.refused.facts["reason"] == "no-rule"
    assert [step.rule for step in there(needs("brolga-plains", "two", date(2026, 5, 1))[Input.NITROGEN]).steps][:3] == [
        "demand",
        "soil-mineral-nitrogen",
        "mineralised",
    ]


def test_a_profile_that_an_earlier_crop_used() -> None:
    """Sampled in March 2026, asked for the harvest of 2027."""
    refused = needs("brolga-plains", "two")[Input.NITROGEN]
    assert isinstance(refused, NoNeed)
    assert refused.refused.facts["reason"] == "earlier-season"


def test_what_the_log_names_is_taken_off_once() -> None:
    """Sandhill got 60 kg/ha of a starter since its sampling: 13.2 kg P where it is known, a caution where it is not."""
    starter = product("map at SOWING", phosphorus=22.0)
    unknown = there(needs("brolga-plains", "sandhill")[Input.PHOSPHORUS])
    known = there(needs("brolga-plains", "sandhill", products=(starter,))[Input.PHOSPHORUS])
    assert "applied-unknown" in unknown.cautions
    assert "applied-unknown" not in known.cautions
    assert unknown.amount - known.amount == pytest.approx(13.2)


def test_the_practices_own_maxima_and_years() -> None:
    """A maximum binds; fewer years of build-up ask for more a year."""
    capped = there(needs("hazel-rigg", "far-rigg", caps={Input.POTASSIUM: (Cap(50.0, "house"),)})[Input.POTASSIUM])
    assert (capped.amount, capped.caps[0].rule) == (50.0, "house")
    client, zone, judgements = judged("anvil-creek", "lane")
    usual, four, one = (
        there(nutrient_needs(replace(client, build_up_years=years), zone, judgements, Choices(ON))[0])
        for years in (None, 4, 1)
    )
    assert usual == four
    assert one.amount == pytest.approx(4 * four.amount)


def test_the_law_counts_what_is_spread_in_the_year() -> None:
    """Stable field, grazed, P Index 2-: at most 20 kg P2O5/ha."""
    found = there(needs("glen-tarn", "stable-field")[Input.PHOSPHORUS])
    legal = next(cap for cap in found.caps if cap.rule == "legal")
    assert legal.amount == pytest.approx(to_element(20, "P2O5", Input.PHOSPHORUS))


def test_land_without_a_rule() -> None:
    """Vegetables in the United Kingdom have other targets than the rates: nothing is guessed."""
    client, zone, judgements = judged("hazel-rigg", "far-rigg")
    found = nutrient_needs(client, replace(zone, land_use="vegetables"), judgements, Choices(ON))
    refused = next(one for one in found if one.input is Input.POTASSIUM)
    assert isinstance(refused, NoNeed)
    assert refused.refused.facts["reason"] == "no-rule"


def test_an_older_edition_is_said() -> None:
    """Tri-State of 1995 was revised in 2020."""
    client, zone, _ = judged("iron-prairie", "nw-quarter")
    chosen = replace(client, guideline="tri-state-1995")
    by = Judging(sets_for(chosen, zone), comparability_key, crops=("corn",))
    judgement = judge_zone(chosen, zone, "corn-soybean", by)
    assert judgement is not None
    found = there(nutrient_needs(chosen, zone, (judgement,), Choices(ON))[0])
    assert "superseded" in found.cautions
    assert found.steps[0].status == "unverified"


def test_area_changes_no_rate() -> None:
    """Rates are by the hectare: what is spread in all scales with area."""
    client, zone, judgements = judged("hazel-rigg", "far-rigg")
    ways = [nutrient_needs(client, replace(zone, area_ha=area), judgements, Choices(ON)) for area in (1.0, 40.0)]
    assert ways[0] == ways[1]


def test_why_there_is_none() -> None:
    """Not measured, or not rated: the reason of the result itself."""
    found = needs("iron-prairie", "nw-quarter")
    reasons = {input_: one.refused.why.value for input_, one in found.items() if isinstance(one, NoNeed)}
    assert reasons[Input.SULPHUR] == "not-measured"
    assert reasons[Input.PHOSPHORUS] == "not-in-set"


@pytest.mark.parametrize("client_id", ["anvil-creek", "brolga-plains", "glen-tarn", "hazel-rigg", "iron-prairie"])
def test_every_need_of_the_example_adds_up(client_id: str) -> None:
    """Steps to the need before maxima, the range round it, no maximum passed; every figure with its source."""
    client = example(client_id)
    for zone in (zone for farm in client.farms for zone in farm.zones):
        for one in needs(client_id, zone.id).values():
            if isinstance(one, Need):
                most = min((cap.amount for cap in one.caps), default=float("inf"))
                assert one.amount == pytest.approx(min(most, fsum(step.amount for step in one.steps)), abs=1e-9)
                assert 0 <= one.low <= one.amount <= one.high <= most
                assert all(step.source for step in one.steps if step.rule in {"removal", "index", "build-up"})
