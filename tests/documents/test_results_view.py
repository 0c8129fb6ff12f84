"""The summary of earlier results."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from soilrota.documents.results_view import ResultRow, result_rows
from soilrota.model.findings import SampleFinding, SampleKey, SampleRule, Weight
from tests.documents.made import example


def rows(client_id: str, zone_id: str, protocol: str) -> tuple[ResultRow, ...]:
    """Return the summary of an example zone."""
    client = example(client_id)
    zone = next(zone for farm in client.farms for zone in farm.zones if zone.id == zone_id)
    return result_rows(client, zone, protocol, [])


def test_the_last_value_stands_beside_its_target() -> None:
    """Value, unit and day are those of the last report; the target that of the same method, unit and depth."""
    client = example("anvil-creek")
    last = max(
        (row for row in client.results if (row.zone, row.analyte) == ("barn", "phosphorus")),
        key=lambda row: row.sampled,
    )
    (shown,) = (row for row in rows("anvil-creek", "barn", "topsoil-pasture") if row.name == "Colwell P")
    assert shown.value == f"{last.value:.0f} mg/kg"
    assert shown.taken == "20 February 2026"
    assert shown.target == "28 to 31"
    assert shown.against == ("below" if last.value < 28 else "above" if last.value > 31 else "in range")
    assert shown.source == 2


def test_analyses_come_in_the_order_asked_for() -> None:
    """The table follows the protocol, layer by layer."""
    names = [(row.depth, row.name) for row in rows("brolga-plains", "one", "deep-nitrogen")]
    assert names == [
        ("0–10 cm", "Nitrate N (KCl)"),
        ("0–10 cm", "Ammonium N (KCl)"),
        ("10–30 cm", "Nitrate N (KCl)"),
        ("10–30 cm", "Ammonium N (KCl)"),
        ("30–60 cm", "Nitrate N (KCl)"),
        ("30–60 cm", "Ammonium N (KCl)"),
    ]


def test_a_changed_method_is_said() -> None:
    """Olsen P before Colwell P is not compared with it."""
    (shown,) = (
        row for row in rows("brolga-plains", "far", "topsoil-crop") if "Colwell P" in row.name and "PBI" not in row.name
    )
    assert shown.note == "Before, Olsen P: not comparable."


def test_a_redrawn_zone_is_said() -> None:
    """The trend is cut on the day of the change; a zone that was redrawn after its last result is not cut yet."""
    shown = rows("dune-end-sheep", "plain", "topsoil-pasture")
    assert {row.note for row in shown} == {"Zone redrawn on 1 July 2024: not comparable with before."}
    assert all("before the zone was redrawn" in row.trend and "stroke-dasharray" in row.trend for row in shown)
    client = example("dune-end-sheep")
    zone = next(zone for farm in client.farms for zone in farm.zones if zone.id == "plain")
    later = replace(zone, follows=(replace(zone.follows[0], since=date(2027, 1, 1)),))
    assert {row.note for row in result_rows(client, later, "topsoil-pasture", [])} == {""}


def test_a_corrected_value_is_the_one_that_is_shown() -> None:
    """The value of the higher issue stands; that of the lower is not in the trend."""
    client = example("dune-end-sheep")
    zone = next(zone for farm in client.farms for zone in farm.zones if zone.id == "limestone")
    shown = result_rows(client, zone, "topsoil-pasture", [])
    (phosphorus,) = (row for row in shown if row.name == "Colwell P")
    assert "37 in 2025" in phosphorus.trend
    assert "35 in 2025" not in phosphorus.trend


def test_censored_values_keep_their_sign() -> None:
    """Below detection is printed so."""
    (shown,) = (row for row in rows("dune-end-sheep", "dune", "topsoil-pasture") if row.name == "KCl-40 S")
    assert shown.value == "<1.0 mg/kg"


def test_a_value_of_another_depth_or_unit_meets_no_target() -> None:
    """A target for 0 to 10 cm says nothing of 0 to 7.5 cm."""
    client = example("anvil-creek")
    zone = client.farms[0].zones[1]
    shallow = replace(client, results=tuple(replace(result, bottom_cm=7.5) for result in client.results))
    assert all(not row.target for row in result_rows(shallow, zone, "topsoil-pasture", []))


def test_a_first_year_has_no_rows() -> None:
    """Nothing sampled, nothing shown."""
    assert rows("juniper-start", "front", "topsoil-pasture") == ()


def test_a_value_that_no_advice_rests_on() -> None:
    """The value of an unusable sample is shown, held against no target, and says so; a doubt changes nothing."""
    client = example("anvil-creek")
    zone = next(zone for farm in client.farms for zone in farm.zones if zone.id == "barn")
    plain = rows("anvil-creek", "barn", "topsoil-pasture")
    key = SampleKey(zone.farm, zone.id, "topsoil-pasture", 0, 7.5, date(2026, 2, 20))
    finding = SampleFinding(key, SampleRule.OTHER_DEPTH, Weight.UNUSABLE)
    barred = result_rows(client, zone, "topsoil-pasture", [], [finding])
    assert any(row.against for row in plain)
    assert not any(row.against for row in barred)
    assert all(row.note.endswith("Not used for advice, see below.") for row in barred)
    assert [row.value for row in barred] == [row.value for row in plain]
    for other in (replace(finding, weight=Weight.DOUBT), replace(finding, sample=replace(key, day=date(2025, 2, 20)))):
        assert result_rows(client, zone, "topsoil-pasture", [], [other]) == plain
    deeper = replace(finding, sample=replace(key, top_cm=10, bottom_cm=30))
    assert result_rows(client, zone, "topsoil-pasture", [], [deeper]) == plain
