"""Random ground for the patterns: concave, with holes, in parts, as slivers; some of it far from the grid's centre."""

from __future__ import annotations

import math
import os

import numpy as np
import shapely
from hypothesis import strategies as st

from soilrota.geometry.projection import Surface

LONG = os.environ.get("SOILROTA_LONG") == "1"
#: Random regions a property test draws: few in an ordinary run, the full count with SOILROTA_LONG=1.
EXAMPLES = 600 if LONG else 40


def metres(least: float, most: float) -> st.SearchStrategy[float]:
    """Lengths to the millimetre [m]: no map holds a coordinate of 1e-300, over which the library divides by 0."""
    return st.integers(round(least * 1000), round(most * 1000)).map(lambda millimetres: millimetres / 1000)


@st.composite
def stars(draw: st.DrawFn) -> shapely.Polygon:
    """A star-shaped polygon, mostly concave, of 3 to 9 corners 5 m to 80 m from a centre near the origin [m]."""
    x, y = draw(st.tuples(metres(-60, 60), metres(-60, 60)))
    radii = draw(st.lists(metres(5, 80), min_size=3, max_size=9))
    turn = draw(st.floats(0, math.pi))
    corners = [turn + 2 * math.pi * i / len(radii) for i in range(len(radii))]
    return shapely.Polygon([(x + r * math.cos(a), y + r * math.sin(a)) for r, a in zip(radii, corners, strict=True)])


@st.composite
def slivers(draw: st.DrawFn) -> shapely.Polygon:
    """A strip of 20 m to 300 m, 5 cm to 3 m wide, turned anyhow [m]."""
    long, wide = draw(metres(20, 300)), draw(metres(0.05, 3))
    turn = draw(st.floats(0, 180) | st.sampled_from((0.0, 90.0)))
    return shapely.affinity.rotate(shapely.box(0, 0, long, wide), turn, origin=(0, 0))


@st.composite
def regions(draw: st.DrawFn) -> Surface:
    """Stars and slivers together, holes punched out, at the grid's centre or some kilometres off [m]."""
    parts = draw(st.lists(stars() | slivers(), min_size=1, max_size=3))
    apart = draw(st.sampled_from((0.0, 0.0, 200.0)))
    whole = shapely.union_all([shapely.affinity.translate(part, i * apart) for i, part in enumerate(parts)])
    middles = draw(st.lists(st.tuples(metres(-60, 60), metres(-60, 60)), max_size=4))
    for middle in middles:
        cut = whole.difference(shapely.Point(middle).buffer(draw(metres(1, 15)), quad_segs=4))
        whole = cut if cut.area > 1 else whole
    far = draw(st.sampled_from((0.0, 0.0, 3000.0)))
    return polygons_of(shapely.affinity.translate(whole, far, -far))


def polygons_of(shape: shapely.Geometry) -> Surface:
    """Return the polygons of a shape as one surface."""
    parts = [part for part in shapely.get_parts(shape) if isinstance(part, shapely.Polygon)]
    return parts[0] if len(parts) == 1 else shapely.MultiPolygon(parts)


def in_ground(free: Surface, points: list[tuple[float, float]]) -> bool:
    """Return whether all points lie in the ground, to a hundredth of a millimetre."""
    return bool(shapely.dwithin(free, shapely.points(np.reshape(points, (-1, 2))), 1e-5).all())


def closest_pair_m(points: list[tuple[float, float]]) -> float:
    """Return the smallest distance between two of the points, the slow way [m]; infinite for fewer than two."""
    return min((math.dist(a, b) for i, a in enumerate(points) for b in points[:i]), default=math.inf)
