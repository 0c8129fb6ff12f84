"""Figures of layouts: a distance for every class of the map, published values as published, the rest marked."""

from __future__ import annotations

import json
from pathlib import Path

from soilrota.guidelines.layout import layout_figures
from soilrota.model.layout import Pattern

ROOT = Path(__file__).resolve().parents[2]
FENCE_PUBLISHED_M = 4
FOOT_M = 0.3048


def test_every_class_of_the_map_has_a_distance_and_a_source() -> None:
    """The classes are those of the schema; each distance names a source or says that there is none."""
    schema = json.loads((ROOT / "schemas" / "map.schema.json").read_text(encoding="utf-8"))
    classes = schema["definitions"]["properties"]["properties"]["class"]["enum"]
    figures = layout_figures()
    assert list(figures.classes) == classes
    assert all(kept.metres >= 0 and kept.source for kept in (figures.edge, *figures.classes.values()))


def test_published_distances() -> None:
    """The edge and fences are never below the published 4 m; roads are 300 ft, to the next 10 m."""
    figures = layout_figures()
    assert figures.edge.metres >= FENCE_PUBLISHED_M
    assert figures.classes["fence"].metres >= FENCE_PUBLISHED_M
    assert abs(figures.classes["road"].metres - 300 * FOOT_M) < 5


def test_published_bands_and_cluster() -> None:
    """Rows 30, 61 and 76 cm apart: 8, 16 and 20 cores between for one in the row; a cluster is the 5 m square."""
    figures = layout_figures()
    assert [(band.row_spacing_cm, band.between) for band in figures.bands] == [(30, 8), (61, 16), (76, 20)]
    assert 5 / 2 <= figures.cluster_radius_m <= 5 / 2**0.5


def test_house_figures() -> None:
    """Every pattern has its least spacing; walking, legs and reach are positive; the table says they are its own."""
    figures = layout_figures()
    assert set(figures.least_spacing_m) == set(Pattern)
    assert (figures.walking_speed_km_h, figures.least_legs) == (4, 4)
    assert figures.reach_m > 0
    assert figures.narrow_m > 0
    assert figures.source == "common practice, no source"
