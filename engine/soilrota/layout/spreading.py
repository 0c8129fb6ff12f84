"""Some of many, spread evenly: which points of a walk take a layer that has fewer cores."""

from __future__ import annotations

from collections.abc import Sequence


def spread(few: int, many: int) -> list[int]:
    """Return `few` of the numbers 0 to `many` - 1, spread evenly: each in the middle of its share.

    Args:
        few: how many [-]; no more than `many`.
        many: how many there are [-].
    """
    return [(2 * number + 1) * many // (2 * few) for number in range(few)]


def points_of_layers(cores: Sequence[int]) -> list[list[int]]:
    """Return for every layer the numbers of the points where it is taken, from 0.

    The layer with the most cores is taken everywhere. The others follow by falling number of cores, each at some of
    the points of the one before it, spread evenly over the walk: a hole that is deepened serves every layer above, so
    a layer never opens a hole of its own.

    Args:
        cores: cores of each layer [-].
    """
    taken: list[list[int]] = [[] for _ in cores]
    points = list(range(max(cores, default=0)))
    for number in sorted(range(len(cores)), key=lambda number: (-cores[number], number)):
        points = [points[place] for place in spread(cores[number], len(points))]
        taken[number] = points
    return taken
