"""Cores in crop rows with fertiliser in bands: how many in the row, and which."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from soilrota.layout.spreading import spread
from soilrota.model.layout import BandRatio

#: From so many cores on, one lies in the row and one between at least [-].
_BOTH = 2


def cores_between(row_spacing_cm: float, bands: Sequence[BandRatio]) -> float:
    """Return how many cores lie between the rows for one in the row [-].

    Between two published distances the ratio is interpolated; outside them the nearest holds.

    Args:
        row_spacing_cm: distance between rows [cm].
        bands: published ratios, by growing distance; at least one.
    """
    if row_spacing_cm <= bands[0].row_spacing_cm:
        return bands[0].between
    for narrow, wide in pairwise(bands):
        if row_spacing_cm <= wide.row_spacing_cm:
            share = (row_spacing_cm - narrow.row_spacing_cm) / (wide.row_spacing_cm - narrow.row_spacing_cm)
            return narrow.between + share * (wide.between - narrow.between)
    return bands[-1].between


def cores_in_row(cores: int, row_spacing_cm: float, bands: Sequence[BandRatio]) -> int:
    """Return how many of the cores lie in the row [-]: by the ratio, and one of each sort with two cores or more."""
    in_row = round(cores / (1 + cores_between(row_spacing_cm, bands)))
    return min(max(in_row, 1), cores - 1) if cores >= _BOTH else in_row


def points_in_row(sets: Sequence[Sequence[int]], row_spacing_cm: float, bands: Sequence[BandRatio]) -> frozenset[int]:
    """Return the numbers of the points that lie in the row.

    Every layer is a composite of its own, so every layer gets its own share in the row: the smallest set of points
    first, then what the larger ones still lack, each spread evenly over the walk.

    Args:
        sets: the points of each layer by number, each set within every larger one.
        row_spacing_cm: distance between rows [cm].
        bands: published ratios, by growing distance.
    """
    chosen: set[int] = set()
    settled: set[int] = set()
    for points in sorted(sets, key=len):
        lacking = cores_in_row(len(points), row_spacing_cm, bands) - len(chosen.intersection(points))
        left = [number for number in points if number not in settled]
        chosen.update(left[place] for place in spread(min(max(lacking, 0), len(left)), len(left)))
        settled.update(points)
    return frozenset(chosen)
