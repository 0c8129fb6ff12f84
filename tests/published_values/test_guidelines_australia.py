"""Pasture and crops of southern Australia: every verified figure of the shipped sets, with the source beside it."""

from __future__ import annotations

import pytest

from soilrota.guidelines.classes import class_of, holds
from soilrota.guidelines.sets import guideline_sets
from soilrota.model.guideline import Status
from tests.published_values.figures import Printed, named, row_of, shipped, verified

PASTURE = "southern-australia-pasture"
VICTORIAN_CROPS, NEW_SOUTH_WALES, WESTERN = (
    "southern-australia-cropping",
    "new-south-wales-cropping",
    "western-australia-cropping",
)

#: Murray Local Land Services, Prioritising a fertiliser program for grazing pastures: critical Colwell P, mg/kg. The
#: line is the middle of what is printed.
MURRAY = {
    (PASTURE, "colwell-p-pbi-36-70"): Printed(29.5, (28, 31), ranges=((36, 71),)),
    (PASTURE, "colwell-p-pbi-141-280"): Printed(40.5, (37, 44), ranges=((141, 281),)),
}
#: Making More From Sheep, tool 7.3: responsive below 12, marginal 12-15, generally non-responsive above 15 mg/kg.
TOOL_7_3 = {
    (PASTURE, "olsen-p"): Printed(15, (12, 15), (12, 15)),
    (PASTURE, "bray-1-p"): Printed(15, (12, 15), (12, 15)),
}


def _band(low: float, high: float, *ranges: tuple[float, float]) -> Printed:
    """Return a printed band; the line is its lower end."""
    return Printed(low, (low, high), (low, high), ranges=ranges)


#: Botta, Understanding Your Soil Test, summary table; mg/kg, cmol(+)/kg and % of the exchange capacity.
BOTTA = {
    (PASTURE, "colwell-p-80-90-pbi-71-140"): _band(27, 35, (71, 141)),
    (PASTURE, "colwell-p-80-90-pbi-141-280"): _band(32, 42, (141, 281)),
    (PASTURE, "colwell-p-80-90-pbi-281-840"): _band(44, 58, (281, 841)),
    (PASTURE, "colwell-k-80-90-sands"): _band(60, 100),
    (PASTURE, "colwell-k-80-90-sandy-loams"): _band(70, 110),
    (PASTURE, "colwell-k-80-90-clay-loams"): _band(70, 120),
    (PASTURE, "colwell-k-80-90-clays"): _band(80, 130),
    (PASTURE, "colwell-k-90-95-sands"): _band(90, 130),
    (PASTURE, "colwell-k-90-95-sandy-loams"): _band(100, 150),
    (PASTURE, "colwell-k-90-95-clay-loams"): _band(110, 160),
    (PASTURE, "colwell-k-90-95-clays"): _band(120, 180),
    (PASTURE, "exchangeable-k-80-90-loams"): _band(0.28, 0.44),
    (PASTURE, "exchangeable-k-90-95-loams"): _band(0.38, 0.54),
    (PASTURE, "potassium-share"): Printed(edges=(3, 8)),
    (PASTURE, "aluminium-share-pasture"): Printed(5),
    (PASTURE, "aluminium-share-clovers"): Printed(3),
    (PASTURE, "aluminium-share-lucerne"): Printed(1),
}
#: Agriculture Victoria, Understanding soil tests for pastures: organic carbon, %.
VICTORIA = {
    (PASTURE, "organic-carbon-low-rainfall"): Printed(edges=(1.9, 2.8)),
    (PASTURE, "organic-carbon-high-rainfall"): Printed(edges=(3.1, 6.2)),
}
#: Australian Agronomy Conference, paper 3617: Colwell P of wheat and canola, high-rainfall zone and grain belt, mg/kg.
CONFERENCE = {
    (VICTORIAN_CROPS, "colwell-p-wheat-high-rainfall"): Printed(37),
    (VICTORIAN_CROPS, "colwell-p-canola-high-rainfall"): Printed(41),
    (VICTORIAN_CROPS, "colwell-p-wheat-lower-rainfall"): Printed(21),
    (VICTORIAN_CROPS, "colwell-p-canola-lower-rainfall"): Printed(20),
}
#: Grains Research and Development Corporation, Budgeting phosphorus, March 2020: southern New South Wales, mg/kg.
BUDGETING = {
    (NEW_SOUTH_WALES, "colwell-p-wheat-90"): Printed(35),
    (NEW_SOUTH_WALES, "colwell-p-wheat-95"): Printed(42),
    (NEW_SOUTH_WALES, "colwell-p-canola-90"): Printed(22),
    (NEW_SOUTH_WALES, "colwell-p-canola-95"): Printed(27),
}
#: Bell and others 2013, paper CP13016: 19-27 mg/kg for all soil orders tested but two, at a pH (CaCl2) from 4.3 on. The
#: line is the middle of what is printed.
BELL = {(WESTERN, "colwell-p-wheat"): Printed(23, (19, 27), ranges=((4.3, None),))}
#: Grains Research and Development Corporation, electronic library: KCl-40 S of wheat, 0-30 cm, mg/kg.
SULPHUR = {(WESTERN, "kcl-40-s-wheat"): Printed(4.6, (4.0, 5.3))}

SETS = (PASTURE, VICTORIAN_CROPS, NEW_SOUTH_WALES, WESTERN)
TABLES = {
    "Murray": MURRAY,
    "Making More From Sheep": TOOL_7_3,
    "Botta": BOTTA,
    "Agriculture Victoria": VICTORIA,
    "Conference": CONFERENCE,
    "Grains": {**BUDGETING, **SULPHUR},
    "Bell": BELL,
}


@pytest.mark.parametrize("source", TABLES)
def test_figures_are_those_of_the_source(source: str) -> None:
    """Line, interval, class edges and ground of each row are as printed, and the row names that source."""
    for (guideline, row_id), printed in TABLES[source].items():
        row = row_of(guideline, row_id)
        assert shipped(row) == printed, row_id
        assert source in row.source.author, row_id
        assert row.status is Status.VERIFIED, row_id


def test_every_verified_figure_stands_in_a_table() -> None:
    """No verified row of these sets lacks a printed figure here, and none is here twice."""
    keys = named(TABLES.values())
    assert len(set(keys)) == len(keys)
    assert set(keys) == verified(SETS)


@pytest.mark.parametrize(("index", "low", "high"), [(60, 28, 31), (180, 37, 44)])
def test_worked_example_of_pasture(index: float, low: float, high: float) -> None:
    """Murray Local Land Services: at a buffering index of 60, Colwell P of 28 to 31; at 180, 37 to 44 mg/kg."""
    rows = [
        row
        for row in guideline_sets()[PASTURE].rows
        if row.goals == ("95",) and row.method == "colwell" and row.ranges and holds(row.ranges[0], index)
    ]
    assert [(row.critical_low, row.critical_high) for row in rows] == [(low, high)]


@pytest.mark.parametrize(
    ("value", "words"),
    [(11.9, "responsive"), (12, "marginal"), (14.9, "marginal"), (15.1, "generally non-responsive")],
)
def test_bands_of_olsen_phosphorus(value: float, words: str) -> None:
    """Making More From Sheep, tool 7.3: the bands as printed."""
    found = class_of(row_of(PASTURE, "olsen-p"), value)
    assert found is not None
    assert found.words == words


def test_classes_of_the_buffering_index_leave_no_gap() -> None:
    """From 0 to 840 one row of each goal that covers the index holds, between whole numbers too; above, none."""
    rows = [row for row in guideline_sets()[PASTURE].rows if row.goals == ("95",) and row.ranges]
    for tenth in range(8405):
        assert sum(holds(row.ranges[0], tenth / 10) for row in rows) == 1, tenth / 10
    assert not any(holds(row.ranges[0], 841) for row in rows)


def test_the_line_of_pasture_agrees_with_the_printed_classes() -> None:
    """Not a published value: the remembered line 19.6 + 1.1 * PBI ** 0.55 lies in each printed interval."""
    for row_id, index in (("colwell-p-pbi-36-70", 60), ("colwell-p-pbi-141-280", 180)):
        row = row_of(PASTURE, row_id)
        assert row.critical_low is not None
        assert row.critical_high is not None
        assert row.critical_low <= 19.6 + 1.1 * index**0.55 <= row.critical_high


def test_no_line_of_pasture_speaks_of_crops() -> None:
    """Rows of the pasture set hold for pasture alone, those of the cropping sets for named crops alone."""
    assert all(row.land_uses == ("pasture",) for row in guideline_sets()[PASTURE].rows)
    crops = [row for name in (VICTORIAN_CROPS, NEW_SOUTH_WALES, WESTERN) for row in guideline_sets()[name].rows]
    assert all(row.land_uses == ("crop",) and row.crops for row in crops)
    assert not any(one.covariate.startswith("phosphorus-buffering") for row in crops for one in row.ranges)
