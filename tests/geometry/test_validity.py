"""Faults of shapes, with the place of each."""

from __future__ import annotations

import pytest

from soilrota.geometry.validity import shape_fault
from soilrota.model.ground import Outline, Position, Ring
from soilrota.problems import Place

PLACE = Place("map.geojson")
SQUARE: Ring = ((145.0, -37.0), (145.01, -37.0), (145.01, -36.99), (145.0, -36.99), (145.0, -37.0))


def shifted(ring: Ring, by: float, scale: float = 1.0) -> Ring:
    """Return the ring scaled about its first corner and shifted to the east and north [degree]."""
    west, south = ring[0]
    return tuple((west + by + (x - west) * scale, south + by + (y - south) * scale) for x, y in ring)


def test_a_valid_outline_has_no_fault() -> None:
    """A square, and a square with a hole, are fine."""
    assert shape_fault(Outline(((SQUARE,),), PLACE)) is None
    assert shape_fault(Outline(((SQUARE, shifted(SQUARE, 0.002, 0.2)),), PLACE)) is None


@pytest.mark.parametrize("longitude", [145.0, -179.995 - 0.01, 179.995])
def test_the_crossing_is_named(longitude: float) -> None:
    """A bow tie crosses itself in its middle; that is the position given, at the date line too."""
    corners: tuple[Position, ...] = ((0.0, 0.0), (0.01, 0.01), (0.01, 0.0), (0.0, 0.01), (0.0, 0.0))
    ring = tuple(((longitude + x + 180) % 360 - 180, -37.0 + y) for x, y in corners)
    fault = shape_fault(Outline(((ring,),), PLACE))
    assert fault is not None
    assert fault.what == "the outline crosses itself"
    assert fault.position is not None
    assert (fault.position[0] - longitude) % 360 == pytest.approx(0.005, abs=1e-6)
    assert fault.position[1] == pytest.approx(-36.995, abs=1e-5)


def test_other_faults_have_their_own_words() -> None:
    """A hole outside its polygon, and a ring without area, are told apart."""
    outside = shape_fault(Outline(((SQUARE, shifted(SQUARE, 0.02, 0.2)),), PLACE))
    assert outside is not None
    assert outside.what == "a hole lies outside its polygon"
    flat: Ring = ((145.0, -37.0), (145.0, -37.0), (145.0, -37.0), (145.0, -37.0))
    nothing = shape_fault(Outline(((flat,),), PLACE))
    assert nothing is not None
    assert nothing.what == "a ring has no area"
