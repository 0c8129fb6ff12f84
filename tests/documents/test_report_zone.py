"""The page of a zone: everything that was found, advised and said of it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.documents.report_grounds import FarmGrounds
from soilrota.documents.report_zone import zone_part
from soilrota.model.advice import Need
from soilrota.model.result_findings import Acceptance, Grade, ResultFinding, ResultKey, ResultRule
from soilrota.problems import Place
from tests.documents.reports import REPORTED, advised, farm_grounds, grounds


@pytest.mark.parametrize("name", REPORTED)
def test_no_code_is_shown(name: str) -> None:
    """Ids and codes of the data are in words everywhere."""
    farm = farm_grounds(name)
    said = " ".join(
        words
        for zone in farm.farm.zones
        for part in zone_part(farm, zone).parts
        for words in (
            part.sampled,
            *part.constraints,
            *part.quantities,
            *part.about_results,
            *part.about_samples,
            *part.next,
            *(f"{row.name} {row.words} {row.meaning} {row.trend} {row.target}" for row in part.results),
        )
    )
    for code in ("-bench", "topsoil-", ".colwell", ".derived", "None", "_", "not-measured", "{", "mean-"):
        assert code not in said


def test_what_cannot_be_reckoned_is_said_once_a_reason() -> None:
    """All quantities with the same reason in one sentence, over all layers."""
    farm = farm_grounds("ellery-orchard")
    (part,) = zone_part(farm, farm.farm.zones[0]).parts
    acidity = [words for words in part.quantities if "exchange acidity" in words]
    assert len(acidity) == 1
    assert acidity[0].endswith("are not reckoned: exchange acidity (KCl) was not measured.")


def test_acceptances_are_printed() -> None:
    """With the reason and who gave it."""
    of_client = grounds("hazel-rigg")
    result = of_client.judged[0].ratings[0].result
    word = Acceptance("", result.bag, "", None, ResultRule.HISTORY, (), "Limed in spring.", "mara-ellis", Place("x"))
    code = f"{result.analyte}.{result.method}"
    facts = {"analysis": code, "value": 6.0, "usual": 5.1, "spread": 0.1, "years": 3}
    finding = ResultFinding(ResultKey.of(result), ResultRule.HISTORY, Grade.DOUBT, (code,), facts, accepted=word)
    farm = FarmGrounds(replace(of_client, results=(finding,)), of_client.client.farms[0])
    (part,) = zone_part(farm, farm.zones[result.zone]).parts
    assert part.about_results[0].endswith("Accepted by Mara Ellis: Limed in spring.")


def test_advice_has_its_working_range_and_cautions() -> None:
    """Steps with sources, the maximum, dressings, and what spreading does to sampling."""
    of_client = advised()
    farm = FarmGrounds(of_client, of_client.client.farms[0])
    barn = zone_part(farm, farm.zones["barn"])
    (need,) = barn.needs
    assert need.headline == "Lime (pure calcium carbonate): 2.5 t/ha (1.8 to 3.4)"
    assert [(step.words, step.amount) for step in need.steps] == [
        ("To lift the topsoil (0–10 cm) from pH 4.6 to pH 5.2; liming starts below pH 5", "3 t/ha"),
        ("Spread since the sampling: 550 kg/ha of Ground lime", "-0.5 t/ha"),
    ]
    assert need.steps[0].source.startswith("[")
    assert "Spread in 2 dressings of 1.5 and 1 t/ha." in need.notes
    assert "Never more than 8 t/ha: 2 dressings of at most 4 t/ha each before the soil is measured again." in need.notes
    assert barn.timing[1] == "Sample first, then spread."
    assert "crop that is grown is not known" in zone_part(farm, farm.zones["ridge"]).needs[0].headline


def test_a_zone_without_results_says_so_and_when_it_is_sampled() -> None:
    """Its page is still there."""
    of_client = replace(grounds("anvil-creek"), judged=())
    farm = FarmGrounds(of_client, of_client.client.farms[0])
    part = zone_part(farm, farm.farm.zones[0])
    assert part.parts == ()
    assert part.no_results
    assert part.timing[0].startswith("Next sampling: late summer 2027")


def test_months_keep_their_letter_where_they_come_first() -> None:
    """In the United States a day begins with its month."""
    client = grounds("iron-prairie")
    farm = FarmGrounds(client, client.client.farms[0])
    (part, *_) = zone_part(farm, farm.farm.zones[0]).parts
    assert part.next[0].startswith("Next sampling: after harvest 2028, August ")


def test_no_chance_is_nought_or_quite_sure() -> None:
    """Rounded to whole hundredths, both would be said."""
    of_client = advised()
    needs = [one for one in of_client.needs if isinstance(one, Need)]
    for chance, words in ((0.001, "less than 1 in 100"), (0.999, "more than 99 in 100"), (0.5, "about 50 in 100")):
        changed = replace(of_client, needs=tuple(replace(one, probability=chance) for one in needs))
        farm = FarmGrounds(changed, changed.client.farms[0])
        assert any(words in note for note in zone_part(farm, farm.farm.zones[1]).needs[0].notes)
