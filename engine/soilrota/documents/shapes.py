"""Shapes and features of GeoJSON (RFC 7946), for every file that carries them."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from typing import Any

from soilrota.model.ground import Outline, Position, Ring

#: Decimals of a degree that are written; about a centimetre.
DECIMALS = 7


def feature(kind: str, geometry: Mapping[str, Any] | None, known: Mapping[str, Any]) -> dict[str, Any]:
    """Return one feature with its `kind`; without a geometry it is one that lies nowhere (RFC 7946, section 3.2)."""
    return {"type": "Feature", "properties": {"kind": kind, **known}, "geometry": geometry}


def surface(outline: Outline) -> dict[str, Any]:
    """Return an outline; the map's own cut at the date line stays as it is."""
    polygons = [[_turned(ring, left=not number) for number, ring in enumerate(polygon)] for polygon in outline.polygons]
    if len(polygons) == 1:
        return {"type": "Polygon", "coordinates": polygons[0]}
    return {"type": "MultiPolygon", "coordinates": polygons}


def _turned(ring: Ring, *, left: bool) -> list[Position]:
    """Return a ring, rounded, that turns left (an outer ring) or right (a hole); RFC 7946, section 3.1.6."""
    x0, y0 = ring[0]
    twice = sum((x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0) for (x1, y1), (x2, y2) in pairwise(ring))
    places = [(round(x, DECIMALS), round(y, DECIMALS)) for x, y in ring]
    return places if (twice > 0) == left else places[::-1]
