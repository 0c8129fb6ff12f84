"""All checks together: order, what is judged by what, and what people accepted."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from soilrota.model.result_findings import Acceptance, ResultKey, ResultRule
from soilrota.problems import Place
from soilrota.results.plausibility import check_results, waiting
from tests.documents.made import CLIENTS, example
from tests.results.making import client, result
from tests.results.simulated import simulated_farm

OLSEN = "phosphorus.olsen"
EARLIER = tuple(result(OLSEN, 20 + year % 3, date(year, 2, 10)) for year in range(2021, 2027))
ODD = result(OLSEN, 300)


def test_fresh_results_are_judged_by_those_that_stand() -> None:
    """The same finding, whether the results stand already or are to be taken in."""
    fresh = check_results(client(*EARLIER), [ODD])
    assert [finding.rule for finding in fresh] == [ResultRule.HISTORY]
    assert check_results(client(*EARLIER, ODD), [ODD]) == fresh
    assert check_results(client(*EARLIER, ODD)) == fresh
    assert waiting(fresh) == {ResultKey.of(ODD)}


def test_a_corrected_issue_is_not_judged_by_the_one_it_corrects() -> None:
    """The same report with another value: its own earlier issue is no history."""
    corrected = replace(ODD, value=22, issue=2)
    assert check_results(client(*EARLIER, ODD), [corrected]) == ()


def test_findings_stay_as_years_go_by() -> None:
    """What was found about a result is found again when later results have come."""
    farm = simulated_farm(5, zones=8, years=6, analyses=8, swap=True)
    everything = (*farm.client.results, *farm.fresh)
    later = check_results(replace(farm.client, results=everything))
    assert later
    for year in range(2020, 2026):
        known = tuple(one for one in everything if one.sampled.year <= year)
        now = check_results(replace(farm.client, results=known))
        assert now == tuple(finding for finding in later if finding.key.sampled.year <= year)


def test_findings_come_in_the_order_of_the_bags_and_rules() -> None:
    """Bag by bag as they stand, in each the rules in their order."""
    first = [result("ph.cacl2", 6.5), result("ph.water", 5), result(OLSEN, 300), result("phosphorus.colwell", 3000)]
    second = [replace(one, zone="bank") for one in (result("organic-carbon.walkley-black", 20), result("ph.cacl2", 1))]
    found = check_results(client(*EARLIER), [*first, *second])
    assert [(one.key.zone, str(one.rule)) for one in found] == [
        ("river-flat", "hard-limit"),
        ("river-flat", "ph-pair"),
        ("river-flat", "history"),
        ("bank", "hard-limit"),
        ("bank", "carbon-range"),
    ]


def test_an_accepted_finding_no_longer_bars() -> None:
    """A person's word stays with the finding, so that it is printed."""
    word = Acceptance("", "B2027", "", None, ResultRule.HISTORY, (), "Old sheep yard.", "mara-ellis", Place("c.yaml"))
    (finding,) = check_results(client(*EARLIER, acceptances=(word,)), [ODD])
    assert (finding.accepted, finding.bars) == (word, False)
    assert waiting([finding]) == frozenset()


@pytest.mark.parametrize("name", CLIENTS)
def test_the_example_clients_are_not_held_up(name: str) -> None:
    """Nothing of their histories waits for a person."""
    assert waiting(check_results(example(name))) == frozenset()


def test_nothing_to_judge() -> None:
    """A client without results has no findings."""
    assert check_results(client()) == ()
