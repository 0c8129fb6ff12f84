"""Shapes on the ground, as they stand in a map file: longitude and latitude in degrees, WGS 84 (RFC 7946)."""

from __future__ import annotations

from dataclasses import dataclass

from soilrota.problems import Place

#: (longitude, latitude) [degree].
Position = tuple[float, float]
#: Closed ring of positions; the first equals the last.
Ring = tuple[Position, ...]
#: Outer ring first, then holes.
Polygon = tuple[Ring, ...]


@dataclass(frozen=True, slots=True)
class Outline:
    """A surface: one or more polygons, each an outer ring and its holes.

    Attributes:
        polygons: rings of (longitude, latitude) [degree].
        place: the feature in the map file.
    """

    polygons: tuple[Polygon, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class AvoidedPlace:
    """Something that cores keep away from.

    Attributes:
        farm: id of its farm.
        kind: its class, for instance `stock-camp`, `gateway`, `trough`, `tree-line`, `road`.
        name: what people call it; may be empty.
        shape: `point`, `line` or `area`.
        positions: one tuple of (longitude, latitude) [degree] a point, line or ring.
        buffer_m: distance to keep [m], where the file gives one.
        place: the feature in the map file.
    """

    farm: str
    kind: str
    name: str
    shape: str
    positions: tuple[Ring, ...]
    buffer_m: float | None
    place: Place
