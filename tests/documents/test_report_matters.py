"""What matters most: three at most, the weightiest first, nothing that cannot be believed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.documents.report_grounds import FarmGrounds, ReportGrounds, all_judged
from soilrota.documents.report_matters import beyond_lines, matters, weak_codes
from soilrota.documents.report_standing import Standing, standing_of
from soilrota.model.result_findings import Grade, ResultFinding, ResultKey, ResultRule
from tests.documents.reports import REPORTED, advised, farm_grounds, grounds


def of(of_client: ReportGrounds, farm: int = 0) -> list[str]:
    """Return the headlines of a farm."""
    return [one.headline for one in matters(FarmGrounds(of_client, of_client.client.farms[farm]))]


@pytest.mark.parametrize("name", REPORTED)
def test_three_at_most_and_only_what_lies_beyond(name: str) -> None:
    """Every value that is told of is beyond its line, in no doubt, and no bare ratio."""
    farm = farm_grounds(name)
    assert len(matters(farm)) <= 3
    for (code, _, _, standing), some in beyond_lines(farm).items():
        assert standing in {Standing.TOO_LOW, Standing.TOO_HIGH}
        for one in some:
            assert standing_of(one.rating) is standing
            assert not farm.is_doubted(one.rating.result)
            assert code.partition(".")[0] not in weak_codes(farm.of_zone(one.zone)[0])
        weights = [one.weight for one in some]
        assert weights == sorted(weights, reverse=True)
        assert all(0 <= weight <= 1 for weight in weights)


def test_plain_words_with_the_figures() -> None:
    """The zone, value, line and chance, and that a line was not read."""
    first = matters(farm_grounds("dune-end-sheep"))[0]
    assert first.headline == "KCl-40 S is too low in A Dune and D Plain."
    assert first.why == (
        "Farthest off is A Dune with <1.0 mg/kg at 0–10 cm, under the line of 8.0 mg/kg; the zone’s true mean "
        "almost certainly lies under it. The line is unverified: it was not read in its source."
    )
    assert matters(farm_grounds("hazel-rigg"))[0].headline == "pH (water) is too low in all 6 zones."


def test_a_target_that_no_guideline_rates_counts() -> None:
    """The client agreed on it."""
    assert of(grounds("iron-prairie")) == ["Bray-1 P is below its target in A Northwest field."]


def test_results_that_wait_come_before_those_in_doubt() -> None:
    """And a value in doubt is no shortage any more."""
    of_client = replace(grounds("dune-end-sheep"), results=(), samples=())
    shortage = of(of_client)[0]
    findings = tuple(
        ResultFinding(ResultKey.of(one.result), ResultRule.SWAPPED, Grade.SET_ASIDE, ("sulphur.kcl-40",))
        for judged in of_client.judged
        for one in all_judged(judged)
        if one.result.analyte == "sulphur"
    )
    told = of(replace(of_client, results=findings))
    assert told[0] == "Some results are in doubt in all 4 zones."
    assert shortage not in told


def test_a_need_that_follows_from_no_value_is_told_of() -> None:
    """With its amount."""
    told = matters(FarmGrounds(advised(), advised().client.farms[0]))
    lime = next(one for one in told if one.headline.startswith("Lime"))
    assert (lime.headline, lime.why) == (
        "Lime (pure calcium carbonate) is needed in B Barn.",
        "2.5 t/ha (1.8 to 3.4).",
    )
