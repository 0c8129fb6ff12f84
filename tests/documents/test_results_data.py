"""Results as data: every value once, with names, findings and corrections beside it."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import date

import pytest

from soilrota.documents import results_data, results_digest
from soilrota.model.result_findings import Grade, ResultFinding, ResultKey, ResultRule
from soilrota.model.results import Correction
from tests.documents.made import CLIENTS, example


@pytest.mark.parametrize("client_id", CLIENTS)
def test_every_value_of_the_example_stands_once(client_id: str) -> None:
    """Value, unit, qualifier, layer, day, report and analysis, as accepted."""
    client = example(client_id)
    stated = Counter(
        (
            one.bag,
            one.top_cm,
            one.sampled,
            one.report,
            one.issue,
            f"{one.analyte}.{one.method}",
            one.qualifier,
            one.value,
            one.unit,
        )
        for one in client.results
    )
    given = Counter(
        (one.bag, one.top_cm, one.sampled, one.report, one.issue, one.analysis, one.qualifier, one.value, one.unit)
        for one in results_data(client).values
    )
    assert given == stated


def test_names_stand_beside_ids() -> None:
    """What people call farm, zone, protocol, laboratory and analysis."""
    client = example("anvil-creek")
    one = results_data(client).values[0]
    farm = next(farm for farm in client.farms if farm.id == one.farm)
    assert one.farm_name == farm.name
    assert one.zone_name in {zone.name for zone in farm.zones}
    assert one.protocol_name == client.protocols[one.protocol].name
    assert one.laboratory in {laboratory.name for laboratory in client.practice.laboratories.values()}
    assert one.printed == f"{one.value:.{one.decimals}f}"


def test_a_finding_stands_at_the_values_that_it_is_about() -> None:
    """And nowhere else."""
    client = example("anvil-creek")
    first = client.results[0]
    code = f"{first.analyte}.{first.method}"
    facts = {"analysis": code, "value": "9.9", "usual": "5.5", "spread": "0.2", "years": 4, "side": "high"}
    finding = ResultFinding(ResultKey.of(first), ResultRule.CARBON_RANGE, Grade.DOUBT, (code,), facts)
    told = [one for one in results_data(client, [finding]).values if one.findings]
    about = [one for one in client.results if finding.speaks_of(one)]
    assert len(told) == len(about) == 1
    assert told[0].findings.startswith("About ")


def test_a_correction_stands_at_its_value() -> None:
    """In the words of the programme, with a full stop."""
    client = example("anvil-creek")
    first = client.results[0]
    earlier, later = replace(first, value=first.value + 1), replace(first, issue=2)
    client = replace(
        client,
        results=(later, *client.results[1:]),
        corrections=(Correction(earlier, later, 2, date(2026, 12, 1)),),
    )
    (told,) = [one for one in results_data(client).values if one.corrections]
    assert (told.report, told.issue, told.analysis) == (first.report, 2, f"{first.analyte}.{first.method}")
    assert "no longer" in told.corrections
    assert told.corrections.endswith(".")


def test_the_digest_follows_the_content() -> None:
    """Equal for equal results, another for one changed figure."""
    data = results_data(example("anvil-creek"))
    assert results_digest(data) == results_digest(results_data(example("anvil-creek")))
    changed = replace(data.values[0], value=data.values[0].value + 0.001)
    assert results_digest(replace(data, values=(changed, *data.values[1:]))) != results_digest(data)
