"""Shapes of GeoJSON."""

from __future__ import annotations

from soilrota.documents.shapes import feature, surface
from soilrota.model.ground import Outline
from soilrota.problems import Place

LEFT = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 0.0))
FAR = tuple((x + 5, y) for x, y in LEFT)


def test_rings_turn_as_the_standard_says() -> None:
    """Outer rings turn left, whichever way they were drawn; places are rounded."""
    place = Place("map.geojson")
    one = surface(Outline(((LEFT[::-1],),), place))
    assert one == {"type": "Polygon", "coordinates": [list(LEFT)]}
    two = surface(Outline(((LEFT,), (FAR,)), place))
    assert two["type"] == "MultiPolygon"
    assert len(two["coordinates"]) == 2
    fine = ((0.0, 0.0), (0.123456789, 0.0), (1.0, 1.0), (0.0, 0.0))
    assert surface(Outline(((fine,),), place))["coordinates"][0][1] == (0.1234568, 0.0)


def test_a_feature() -> None:
    """Kind first, then what is known; a geometry may be missing."""
    assert feature("zone", None, {"name": "Hill"}) == {
        "type": "Feature",
        "properties": {"kind": "zone", "name": "Hill"},
        "geometry": None,
    }
