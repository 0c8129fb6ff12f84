"""Everything that a client's results mean, brought together."""

from __future__ import annotations

from pathlib import Path

from soilrota.batch.judging import judge_client, sample_findings, sets_of
from soilrota.model.findings import SampleFinding, SampleKey, SampleRule, Weight
from soilrota.model.judgement import WhyNot
from tests.documents.made import example


def test_every_zone_with_results_is_judged_under_each_protocol() -> None:
    """A judgement a zone and protocol that has results; the nearest set of the zone goes first."""
    client = example("anvil-creek")
    judged = judge_client(client, ())
    sampled = {(one.farm, one.zone, one.protocol) for one in client.results}
    planned = {
        (zone.farm, zone.id, protocol) for farm in client.farms for zone in farm.zones for protocol in zone.protocols
    }
    assert {(one.farm, one.zone, one.protocol) for one in judged.zones} == sampled & planned
    zone = client.farms[0].zones[0]
    assert next(iter(sets_of(client, zone))) == judged.of("home", zone.id)[0].set == "southern-australia-pasture"
    assert {spread.farm for spread in judged.spreads} == {"home", "hill"}


def test_results_of_an_unusable_sample_are_not_judged() -> None:
    """Each says so."""
    client = example("anvil-creek")
    (zone,) = judge_client(client, ()).of("home", "north-flat")
    key = SampleKey("home", "north-flat", zone.protocol, 0.0, 10.0, zone.sampled)
    finding = SampleFinding(key, SampleRule.BAG_TWICE, Weight.UNUSABLE)
    (barred,) = judge_client(client, (finding,)).of("home", "north-flat")
    assert [one for one in barred.ratings if one.result.method != "derived"] == []
    assert {one.refused.why for one in barred.unrated} == {WhyNot.SAMPLE_UNUSABLE}


def test_crops_of_the_plan_decide_rows_of_crops() -> None:
    """Without a crop the row waits for it; with one it speaks."""
    client = example("brolga-plains")
    (without, *_) = judge_client(client, (), {}).of("plains", "one")
    (with_crop, *_) = judge_client(client, (), {("plains", "one"): ("wheat",)}).of("plains", "one")
    assert "phosphorus" in {one.result.analyte for one in without.unrated}
    assert "phosphorus" in {one.result.analyte for one in with_crop.ratings}


def test_findings_of_a_book(tmp_path: Path) -> None:
    """Days and notes are asked; without anything given out bags are asked too."""
    assert isinstance(sample_findings(tmp_path, example("anvil-creek")), tuple)
