"""Maps as features, outlines and places to avoid."""

from __future__ import annotations

from typing import Any

from soilrota.book.maps import access_of, avoided_of, build_features, fixed_points_of, outlines_of
from tests.book.written import written

RING = [[145.0, -37.0, 120.0], [145.01, -37.0, 121.0], [145.01, -36.99, 122.0], [145.0, -37.0, 120.0]]


def one(kind: str, shape: str, coordinates: Any, **properties: object) -> dict[str, Any]:
    """Return a feature of farm `home`."""
    return {
        "properties": {"kind": kind, "farm": "home", **properties},
        "geometry": {"type": shape, "coordinates": coordinates},
    }


def test_every_shape() -> None:
    """Points, lines, polygons and several polygons are told apart; heights are left out."""
    features, problems = build_features(
        written(
            {
                "features": [
                    one("farm", "MultiPolygon", [[RING], [RING]]),
                    one("zone", "Polygon", [RING, RING], zone="hill"),
                    one("access", "Point", [145.0, -37.0, 120.0]),
                    one("fixed-point", "Point", [145.002, -36.999], zone="hill"),
                    one("avoid", "LineString", RING[:2], **{"class": "fence"}),
                    one("avoid", "Polygon", [RING], **{"class": "dump"}, name="Old heap", buffer_m=20),
                ]
            }
        )
    )
    assert problems == ()
    assert [feature.value.shape for feature in features] == ["area", "area", "point", "point", "line", "area"]
    assert [len(feature.value.positions) for feature in features] == [2, 2, 1, 1, 1, 1]
    outlines = outlines_of(features)
    assert set(outlines) == {("home", ""), ("home", "hill")}
    assert outlines["home", "hill"].polygons[0][0][0] == (145.0, -37.0)
    assert access_of(features) == {"home": (145.0, -37.0)}
    assert fixed_points_of(features) == {("home", "hill"): (145.002, -36.999)}
    fence, heap = avoided_of(features)["home"]
    assert (fence.kind, fence.shape, fence.buffer_m, fence.name) == ("fence", "line", None, "")
    assert (heap.buffer_m, heap.name) == (20.0, "Old heap")


def test_rings_that_are_not_closed() -> None:
    """An open ring, and one of too few corners, are problems and no features."""
    features, problems = build_features(
        written({"features": [one("farm", "Polygon", [RING[:3]]), one("farm", "Polygon", [[*RING[:2], RING[0]]])]})
    )
    assert features == ()
    assert [problem.code for problem in problems] == ["ring-not-closed"] * 2
    assert [problem.place.path for problem in problems] == ["features/0/geometry", "features/1/geometry"]
