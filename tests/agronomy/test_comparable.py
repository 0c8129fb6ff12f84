"""Which values compare, and what sets the others apart."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from soilrota.agronomy.barred import barred_samples
from soilrota.agronomy.comparable import Run, runs_of
from soilrota.model.findings import SampleFinding, SampleKey, SampleRule, Weight
from soilrota.model.results import Result
from soilrota.results.history import comparability_key
from tests.results.test_series import client as changing_client

P = "phosphorus.colwell"


def held(year: int, value: float = 30, **changes: object) -> Result:
    """Return a result of the bank, in the season."""
    from tests.results.making import result

    return replace(result(P, value, date(year, 2, 10), zone="bank", bag=f"B{year}"), **changes)


def runs(*results: Result, barred: tuple[SampleFinding, ...] = ()) -> list[Run]:
    """Return the series of the bank, which was split in 2025 and redrawn in 2026."""
    client = replace(changing_client(), results=results)
    bank = client.farms[0].zones[1]
    return list(runs_of(client, bank, "topsoil", comparability_key, barred_samples(barred)))


def years(run: Run) -> list[int]:
    """Return the years of a series' points."""
    return [one.sampled.year for one in run.points]


def test_one_series() -> None:
    """Values that compare, by day, whatever their order in the book."""
    (run,) = runs(held(2029), held(2027), held(2028))
    assert (years(run), run.broken_by, run.left_out) == ([2027, 2028, 2029], (), 0)


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"method": "olsen"}, "method"),
        ({"unit": "mg/l"}, "method"),
        ({"bottom_cm": 15}, "layer"),
        ({"sampled": date(2027, 6, 1)}, "season"),
        ({"sampled": date(2026, 2, 1)}, "zone-redrawn"),
        ({"sampled": date(2024, 12, 1), "zone": "river-flat"}, "season"),
    ],
)
def test_what_breaks_a_series(changes: dict[str, object], reason: str) -> None:
    """Such an earlier value is left out, counted, and the reason told."""
    (run,) = runs(replace(held(2027), **changes), held(2028), held(2029))
    assert years(run) == [2028, 2029]
    assert reason in run.broken_by
    assert run.left_out == 1


def test_a_series_that_was_replaced_is_gone() -> None:
    """The method changed for good: the new series stands, though the old one is longer."""
    old = [replace(held(year), method="olsen") for year in (2027, 2028, 2029)]
    (run,) = runs(*old, held(2030))
    assert (run.points[0].method, years(run), run.left_out) == ("colwell", [2030], 3)


def test_two_methods_each_time() -> None:
    """Two series, and neither breaks the other."""
    both = [replace(held(year), method=way) for year in (2027, 2028) for way in ("colwell", "olsen")]
    found = runs(*both)
    assert [(run.points[0].method, years(run), run.left_out) for run in found] == [
        ("colwell", [2027, 2028], 0), ("olsen", [2027, 2028], 0),
    ]  # fmt: skip


def test_layers_beside_each_other() -> None:
    """Another layer that shares no ground is another series; other protocols and farms are not asked."""
    deep = replace(held(2028), top_cm=10, bottom_cm=20)
    away = (replace(held(2027), protocol="subsoil"), replace(held(2027), farm="away"))
    found = runs(held(2027), deep, *away)
    assert [(run.points[0].top_cm, run.left_out) for run in found] == [(0, 0), (10, 0)]


def test_a_zone_that_is_no_more() -> None:
    """Values of what the zone was give no series of its own."""
    assert runs(replace(held(2025), zone="river-flat", sampled=date(2025, 2, 1))) == []


def test_barred_samples_are_not_there() -> None:
    """Neither as a point nor among those left out."""
    key = SampleKey("home", "bank", "topsoil", 0, 10, date(2028, 2, 10))
    finding = SampleFinding(key, SampleRule.OTHER_DEPTH, Weight.UNUSABLE)
    (run,) = runs(held(2027), held(2028), held(2029), barred=(finding,))
    assert (years(run), run.left_out) == ([2027, 2029], 0)
