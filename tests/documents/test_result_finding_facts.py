"""What stands in a finding about results: samples, values and names as they are read."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from soilrota.documents.result_finding_facts import FindingFacts, Names
from soilrota.model.findings import Fact
from soilrota.model.result_findings import Acceptance, Grade, ResultFinding, ResultKey, ResultRule
from soilrota.problems import Place
from tests.documents.made import example

KEY = ResultKey("north-bench", "r-1", "B-1", "home", "river-flat", "topsoil", 0, 7.5, date(2027, 2, 10))
FOUND = ResultFinding(KEY, ResultRule.PH_PAIR, Grade.DOUBT, ("ph.water",))


def facts(language: str = "en-GB", **known: Fact) -> FindingFacts:
    """Return the facts of a finding, nobody's names known."""
    return FindingFacts(replace(FOUND, facts=known), language, Names())


def test_the_sample_is_named_with_its_bag_where_it_has_one() -> None:
    """Zone, layer, day, bag; ids as words where no name is known."""
    assert facts().about("x.") == "About the sample of river flat (home), 0–7.5 cm, of 10 February 2027, bag B-1: x."
    without = FindingFacts(replace(FOUND, key=replace(KEY, bag="")), "en-GB", Names({"home/river-flat": "Flat"}))
    assert without.about("x.") == "About the sample of Flat, 0–7.5 cm, of 10 February 2027: x."


@pytest.mark.parametrize(
    ("value", "language", "said"),
    [
        (5.25, "en-GB", "5.25"),
        (5.25, "es", "5,25"),
        ("<5", "en-GB", "less than 5.0"),
        (">5", "en-GB", "more than 5.0"),
        ("<0.123456", "en-GB", "less than 0.1235"),
    ],
)
def test_no_decimal_of_the_laboratory_is_lost(value: Fact, language: str, said: str) -> None:
    """At least the decimals of the method, at most four; a limit is said as one."""
    assert facts(language, value=value).value("value", "ph.water") == said


def test_a_figure_of_which_one_end_is_known() -> None:
    """At least, at most, or plainly."""
    assert [facts(bound=bound).bounded("3") for bound in ("least", "most", "")] == ["at least 3", "at most 3", "3"]


def test_what_a_person_said() -> None:
    """By name, with a full stop at the end whether or not they wrote one."""
    for reason in ("It is so", "It is so."):
        accepted = Acceptance("", "B-1", "", None, ResultRule.PH_PAIR, (), reason, "ann-lee", Place("a"))
        said = FindingFacts(replace(FOUND, accepted=accepted), "en-GB", Names()).accepted
        assert said == "Accepted by Ann Lee: It is so."
    assert facts().accepted == ""


def test_the_farm_stands_beside_the_zone_where_there_are_several() -> None:
    """Else the zone alone is enough."""
    client = example("anvil-creek")
    names = Names.of(client)
    several = len(client.farms) > 1
    zone = client.farms[0].zones[0]
    assert names.zones[f"{zone.farm}/{zone.id}"] == (f"{zone.name}, {client.farms[0].name}" if several else zone.name)
    alone = Names.of(replace(client, farms=client.farms[:1]))
    assert alone.zones[f"{zone.farm}/{zone.id}"] == zone.name
