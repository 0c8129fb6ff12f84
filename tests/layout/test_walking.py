"""Walks against the shortest of all orders, and against nearest neighbour."""

from __future__ import annotations

import math
import time
from itertools import pairwise, permutations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.layout.walking import walk_length, walking_order
from tests.layout.regions import LONG, metres

Point = tuple[float, float]
POINT = st.tuples(metres(-200, 200), metres(-200, 200)) | st.tuples(st.integers(-3, 3), st.integers(-3, 3))
POINTS = st.lists(POINT, min_size=1, max_size=25)
EXAMPLES = 2000 if LONG else 100


def nearest_next(points: list[Point], first: int) -> list[int]:
    """The walk that always goes to the nearest point left, written the slow way."""
    order, left = [first], [i for i in range(len(points)) if i != first]
    while left:
        order.append(min(left, key=lambda i: (round(math.dist(points[order[-1]], points[i]), 6), i)))
        left.remove(order[-1])
    return order


def length(points: list[Point], order: list[int] | tuple[int, ...]) -> float:
    """The length of the walk, written out [m]."""
    return sum(math.dist(points[a], points[b]) for a, b in pairwise(order))


def shortest(points: list[Point], first: int | None) -> float:
    """The shortest walk of all, by trying every order [m]."""
    orders = permutations(range(len(points)))
    return min(length(points, order) for order in orders if first is None or order[0] == first)


def best_change(points: list[Point], order: list[int], fixed: int) -> float:
    """What the best turning round of a piece, or moving of one to three points, would save, by trying all [m]."""
    changed = [order]
    for i in range(fixed, len(order)):
        changed += [order[:i] + order[i:j][::-1] + order[j:] for j in range(i + 1, len(order) + 1)]
        for j in range(i + 1, min(i + 3, len(order)) + 1):
            piece, rest = order[i:j], order[:i] + order[j:]
            for at in range(fixed, len(rest) + 1):
                changed += [rest[:at] + laid + rest[at:] for laid in (piece, piece[::-1])]
    return length(points, order) - min(length(points, other) for other in changed)


@settings(max_examples=EXAMPLES, deadline=None)
@given(points=POINTS, start=st.none() | POINT)
def test_every_point_once_from_the_start_and_never_longer_than_nearest_next(
    points: list[Point], start: Point | None
) -> None:
    """The walk meets each point once, begins nearest the start, and no piece turned round or moved shortens it."""
    order = walking_order(points, start)
    assert sorted(order) == list(range(len(points)))
    assert order == walking_order(points, start)
    if start is None:
        first = min(range(len(points)), key=lambda i: (points[i], i))
    else:
        first = order[0]
        nearest = min(math.dist(point, start) for point in points)
        assert math.dist(points[first], start) == pytest.approx(nearest, abs=1e-5)
    mine = length(points, order)
    assert walk_length([points[i] for i in order]) == pytest.approx(mine)
    assert mine <= length(points, nearest_next(points, first)) + 1e-9
    assert best_change(points, order, 0 if start is None else 1) < 1.1e-3


@pytest.mark.parametrize("seed", range(30 if LONG else 8))
def test_nothing_shortens_a_longer_walk(seed: int) -> None:
    """Of 30 points, too, no piece turned round or moved makes the walk shorter."""
    points = [(x, y) for x, y in np.random.default_rng(seed).uniform(0, 100, (30, 2)).tolist()]
    assert best_change(points, walking_order(points, (0.0, 0.0)), 1) < 1.1e-3


@pytest.mark.parametrize("free_start", [False, True])
def test_against_every_order(free_start: bool) -> None:
    """Of 3 to 7 random points, the walk is the shortest of all in nearly all cases, and never a fifth longer."""
    chance = np.random.default_rng(7)
    ratios = []
    for _ in range(400 if LONG else 60):
        points = [(x, y) for x, y in chance.uniform(0, 100, (int(chance.integers(3, 8)), 2)).tolist()]
        start = None if free_start else (0.0, 0.0)
        order = walking_order(points, start)
        ratios.append(length(points, order) / shortest(points, None if free_start else order[0]))
    assert min(ratios) > 1 - 1e-9
    assert max(ratios) < 1.2
    assert np.mean(np.array(ratios) < 1 + 1e-9) > 0.95
    assert np.mean(ratios) < 1.005


def test_four_hundred_points_in_a_moment() -> None:
    """400 points are ordered, and the walk is near what is known of random points: 0.7124 times root of n times area.

    That figure is for tours over very many points (Beardwood, Halton and Hammersley 1959, from memory, unverified);
    the walk stays within a sixth of it.
    """
    points = [(x, y) for x, y in np.random.default_rng(3).uniform(0, 300, (400, 2)).tolist()]
    begin = time.perf_counter()
    order = walking_order(points, (0.0, 0.0))
    assert time.perf_counter() - begin < 30
    assert sorted(order) == list(range(400))
    assert length(points, order) < 7 / 6 * 0.7124 * math.sqrt(400 * 300 * 300)


def test_a_line_is_walked_along() -> None:
    """Points on a line are walked from one end to the other; from the middle, the shorter side comes first."""
    points = [(float(x), 0.0) for x in (30, 0, 50, 10, 40, 20)]
    assert walking_order(points, (-5.0, 0.0)) == [1, 3, 5, 0, 4, 2]
    assert walking_order(points, None) == [1, 3, 5, 0, 4, 2]
    assert walking_order(points, (12.0, 3.0)) == [3, 1, 5, 0, 4, 2]


def test_few_points() -> None:
    """Nothing to walk, one point, two in one place."""
    assert walking_order([], None) == []
    assert walking_order([(1.0, 2.0)], (0.0, 0.0)) == [0]
    assert walking_order([(1.0, 2.0), (1.0, 2.0)], None) == [0, 1]
    assert walk_length([]) == 0.0
    assert walk_length([(0.0, 0.0), (3.0, 4.0)]) == 5.0
