"""In which order the zones of a visit are taken, and how far a crew walks on the farm."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from soilrota.geometry.measure import apart_m
from soilrota.geometry.projection import LocalGrid, beside
from soilrota.layout.walking import walking_order
from soilrota.model.ground import Position


def route(places: Sequence[Position], access: Position | None) -> tuple[int, ...]:
    """Return the order in which places are visited: a short way from the way in, or from the first of them.

    Args:
        places: one a zone (longitude, latitude) [degree].
        access: where the crew starts [degree]; None when not known.

    Returns:
        Indices of the places.
    """
    if not places:
        return ()
    start = access or places[0]
    grid = LocalGrid(beside(start[0], 0.0), start[1])
    origin = grid.metres([start])[0] if access is not None else None
    return tuple(walking_order(grid.metres(places), origin))


def walk_on_farm_m(walks: Sequence[tuple[Sequence[Position], float]], access: Position | None) -> float:
    """Return the walk through all zones in order, from the way in and back where it is known [m].

    Straight between zones: fences, gates and fields under crop make it longer.

    Args:
        walks: line walked (longitude, latitude) [degree] and its length [m], a zone and protocol.
        access: the way in [degree]; None when not known.
    """
    walked = [(line, length) for line, length in walks if line]
    inside = sum(length for _, length in walked)
    stops: list[tuple[Position, Position]] = [(line[0], line[-1]) for line, _ in walked]
    if access is not None:
        stops = [(access, access), *stops, (access, access)]
    return inside + sum(apart_m(leave, enter) for (_, leave), (enter, _) in pairwise(stops))
