"""A judgement traced back to result, row and source."""

from __future__ import annotations

import pytest

from soilrota.batch.judging import judge_client, sets_of
from soilrota.documents.judgement_explanation import analytes_judged, judgement_explanation
from soilrota.language import speaking
from tests.documents.made import example
from tests.documents.shouting import shout


def lines(client_id: str, farm: str, zone_id: str, analyte: str) -> str:
    """Return the explanation as text."""
    client = example(client_id)
    zone = next(zone for one in client.farms for zone in one.zones if (zone.farm, zone.id) == (farm, zone_id))
    judged = judge_client(client, ()).of(farm, zone_id)
    return "\n".join(judgement_explanation(client, zone, analyte, judged, sets_of(client, zone)))


def test_from_the_sentence_to_file_row_and_source() -> None:
    """Result with file and line, report, row with file and line, covariate, basis, doubt, source, the years."""
    text = lines("anvil-creek", "home", "north-flat", "phosphorus.colwell")
    for piece in (
        "is near the line of 34 mg/kg",
        "records/results/anvil-creek/nb-2026-anvil-05.csv:3",
        "report: nb-2026-anvil-05, issue 1, of north-bench, bag A26-003",
        "row colwell-p-pbi-71-140 (guidelines/sets/southern-australia-pasture.yaml:",
        "under the line there is too little",
        "PBI (adjusted for Colwell P) from 71 below 141",
        "95 % of maximum yield",
        "how sure: standard deviation",
        "source: Gourley and others (2007)",
        "Over the years, 0–10 cm: No change is shown from 2024 to 2026",
        "Theil-Sen slope",
    ):
        assert piece in text


def test_a_derived_quantity_names_its_inputs_and_formula() -> None:
    """Working, inputs with their places, formula, status."""
    text = lines("brolga-plains", "plains", "one", "ece")
    assert "from: EC (1:5 in water) 0.09 dS/m" in text
    assert "factor by: clay" in text
    assert "[verified]" in text


def test_an_unrated_value_says_why() -> None:
    """The reason and where the value stands."""
    assert "is not judged: the guideline says nothing of it." in lines(
        "ellery-orchard", "ellery", "early", "organic-carbon"
    )


def test_what_can_be_asked_for() -> None:
    """Analytes and derived quantities by id; nothing for an analyte that was not judged."""
    client = example("anvil-creek")
    asked = analytes_judged(judge_client(client, ()).of("home", "north-flat"))
    assert {"phosphorus", "ph", "ece", "carbon-stock"} <= set(asked)
    assert lines("anvil-creek", "home", "north-flat", "boron") == ""


def test_what_a_trace_says_around_figures_and_ids_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    """Labels and conditions come out of the catalogue; numbers have the sign of the language."""
    asked = ("anvil-creek", "home", "north-flat", "phosphorus.colwell")
    with speaking("es"):
        spanish = lines(*asked)
    assert "0,0" in spanish.partition("desviación estándar ")[2].partition(";")[0]
    shout(monkeypatch)
    text = lines(*asked)
    for piece in (
        "RESULT: ",
        "REPORT: nb-2026-anvil-05, ISSUE 1, OF north-bench, BAG A26-003",
        "GUIDELINE: ",
        "IT HOLDS FOR: 0–10 cm; LAND UNDER pasture",
        "IT FOLLOWS: ",
        "THE LINE STANDS FOR: 95 % OF MAXIMUM YIELD",
        "HOW SURE: STANDARD DEVIATION ",
        "SOURCE: ",
        "OVER THE YEARS, 0–10 cm: ",
        "THEIL-SEN SLOPE ",
    ):
        assert piece in text
    derived = lines("brolga-plains", "plains", "one", "ece")
    assert "FROM: " in derived
    assert "FORMULA: " in derived
