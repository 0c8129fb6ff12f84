"""Everything that is judged of a zone, put together."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta

import pytest

from soilrota.agronomy.judging import Judging, judge_zone, reckoning_for
from soilrota.agronomy.rating import last_sampling
from soilrota.guidelines.choosing import sets_for
from soilrota.model.findings import SampleFinding, SampleKey, SampleRule, Weight
from soilrota.model.guideline import PowerLine, Sense
from soilrota.model.judgement import NoQuantity, Quantity, Refused, TrendVerdict, WhyNot, ZoneJudgement
from soilrota.model.results import Result
from soilrota.results.history import comparability_key
from tests.agronomy.small_sets import classes, made_set, row
from tests.documents.made import CLIENTS, example
from tests.results.making import DAY, client, result
from tests.timing.test_tasks import zone

FLAT = zone("river-flat", "topsoil")
P = "phosphorus.colwell"
SODICITY = row("na", analyte="sodium-share", method="derived", unit="%", critical=6.0, sense=Sense.EXCESS)
CAPACITY = row("k", analyte="potassium", line=PowerLine("exchange-capacity", 0, 10, 1), critical=None)
EARLIER = DAY - timedelta(3)
SET = made_set(row(classes=classes(15, 30)), SODICITY, CAPACITY)
HELD = (
    *(result(P, 30 - 2 * year, DAY - timedelta(365 * (6 - year))) for year in range(7)),
    result("potassium.colwell", 80),
    result("sodium.exchangeable", 0.8),
)


def reckon(results: Sequence[Result]) -> tuple[Sequence[Quantity], Sequence[NoQuantity]]:
    """Return a sodium share and a capacity where there is sodium; else what is missing."""
    sodium = tuple(one for one in results if one.analyte == "sodium")
    if not sodium:
        return (), [NoQuantity("sodium-share", 0, 10, Refused(WhyNot.NOT_MEASURED, {"needs": ("sodium",)}))]
    share = Quantity("sodium-share", 8.0, 7.0, 9.0, "%", 0, 10, sodium)
    return [share, Quantity("exchange-capacity", 10.0, 9.0, 11.0, "cmol(+)/kg", 0, 10, (*sodium, *sodium))], []


def judgement(*held: Result, by: Judging | None = None) -> ZoneJudgement:
    """Return the judgement of the river flat's topsoil."""
    found = judge_zone(client(*held), FLAT, "topsoil", by or Judging((SET,), comparability_key, reckon))
    assert found is not None
    return found


def test_all_together() -> None:
    """Ratings of results and of quantities, what is not rated, quantities, trends: of the last day, with its set."""
    found = judgement(*HELD)
    assert (found.farm, found.zone, found.protocol, found.sampled, found.set) == (
        "home", "river-flat", "topsoil", DAY, "made",
    )  # fmt: skip
    assert [(one.result.analyte, one.critical, one.name) for one in found.ratings] == [
        ("phosphorus", 30, "c1"), ("potassium", 100, ""), ("sodium-share", 6, ""),
    ]  # fmt: skip
    assert [one.result.analyte for one in found.unrated] == ["sodium"]
    assert [one.code for one in found.quantities] == ["sodium-share", "exchange-capacity"]
    by_analyte = {one.analyte: one for one in found.trends}
    assert by_analyte["phosphorus"].verdict is TrendVerdict.FALLING
    assert by_analyte["potassium"].verdict is TrendVerdict.TOO_SHORT


def test_nothing_to_judge_by() -> None:
    """No results, no judgement; no set and no reckoning leave values with their reason, and trends."""
    assert judge_zone(client(), FLAT, "topsoil", Judging((), comparability_key)) is None
    found = judgement(*HELD, by=Judging((), comparability_key))
    assert (found.set, found.ratings, found.quantities) == ("", (), ())
    assert {one.refused.why for one in found.unrated} == {WhyNot.NO_SET}
    assert len(found.trends) == 3


def test_a_barred_sample() -> None:
    """Its values are not rated, nothing is reckoned of them, and no trend has them."""
    key = SampleKey("home", "river-flat", "topsoil", 0, 10, DAY)
    finding = SampleFinding(key, SampleRule.TOO_FEW_CORES, Weight.UNUSABLE)
    found = judgement(*HELD, by=Judging((SET,), comparability_key, reckon, (finding,)))
    assert {one.refused.why for one in found.unrated} == {WhyNot.SAMPLE_UNUSABLE}
    assert found.ratings == ()
    assert [one.code for one in found.missing] == ["sodium-share"]
    (trend,) = found.trends
    assert len(trend.points) == 6


def test_quantities_without_inputs_are_not_rated() -> None:
    """They stand as they are."""
    bare = replace(reckon(HELD)[0][0], inputs=())
    found = judgement(*HELD, by=Judging((SET,), comparability_key, lambda _: ([bare], [])))
    assert found.quantities == (bare,)
    assert "sodium-share" not in {one.result.analyte for one in found.ratings}


def test_every_quantity_of_a_sampling() -> None:
    """Bag by bag; two bags give two of each, and the profile is of the last day, one bag a layer."""
    cations = [
        result(f"{name}.exchangeable", value, bag=bag)
        for name, value in (
            ("calcium", 6.0),
            ("magnesium", 2.0),
            ("potassium", 0.5),
            ("sodium", 0.3),
            ("aluminium", 0.1),
        )
        for bag in ("A", "B")
    ]
    nitrogen = [
        result("nitrate-nitrogen.kcl", value, bag=bag, top_cm=top, bottom_cm=top + 10, sampled=day)
        for value, bag, top, day in ((10, "A", 0, DAY), (11, "B", 0, DAY), (5, "C", 10, DAY), (9, "D", 20, EARLIER))
    ]
    reckon = reckoning_for(replace(FLAT, bulk_density=1.3))
    quantities, _ = reckon([*cations, *nitrogen])
    codes = [one.code for one in quantities]
    assert codes.count("exchange-capacity") == 2
    assert codes.count("mineral-nitrogen") == 4
    (profile,) = [one for one in quantities if one.code == "profile-nitrogen"]
    assert (profile.top_cm, profile.bottom_cm) == (0, 20)
    assert reckon([]) == ([], [])


@pytest.mark.parametrize("client_id", CLIENTS)
def test_the_examples(client_id: str) -> None:
    """Every last result is rated or says why not, once; what is rated names its set, its class, its line or both."""
    one = example(client_id)
    for farm in one.farms:
        for at in farm.zones:
            sets = sets_for(one, at)
            for protocol in at.protocols:
                found = judge_zone(one, at, protocol, Judging(sets, comparability_key, reckoning_for(at)))
                results = last_sampling(one, at, protocol)
                assert (found is None) == (not results)
                if found is not None:
                    _holds_together(found, results, {held.id for held in sets})


def _holds_together(found: ZoneJudgement, results: Sequence[Result], sets: set[str]) -> None:
    """Hold a judgement against the results that it is of."""
    judged = [one.result for one in (*found.ratings, *found.unrated) if one.result.method != "derived"]
    assert Counter(judged) == Counter(results)
    for rating in found.ratings:
        assert rating.set in sets
        assert rating.name or rating.critical is not None
        assert (rating.below is None) == (rating.critical is None)
        assert rating.below is None or 0 <= rating.below <= 1
        assert rating.doubt.source
    assert all(trend.detectable >= 0 and trend.points for trend in found.trends)
