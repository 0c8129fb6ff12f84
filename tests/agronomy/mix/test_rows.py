"""Integer programmes, against counting."""

from __future__ import annotations

from itertools import product
from random import Random

import pytest

from soilrota.agronomy.mix.rows import Rows


def test_random_programmes_against_counting() -> None:
    """The cost is the least of all whole numbers that keep the rows; there is no answer where none do."""
    random = Random(3)
    answered = 0
    for _ in range(60):
        costs = [random.randint(1, 9) for _ in range(3)]
        held = [([random.randint(0, 5) for _ in range(3)], random.randint(3, 25)) for _ in range(2)]
        rows = Rows()
        columns = [rows.column(cost, 4) for cost in costs]
        for weights, low in held:
            rows.row(zip(columns, map(float, weights), strict=True), low=low)
        kept = [
            sum(c * n for c, n in zip(costs, numbers, strict=True))
            for numbers in product(range(5), repeat=3)
            if all(sum(w * n for w, n in zip(weights, numbers, strict=True)) >= low for weights, low in held)
        ]
        answer = rows.solve()
        assert (answer is None) == (not kept)
        if answer is not None:
            answered += 1
            assert answer.proven
            assert sum(c * n for c, n in zip(costs, answer.values, strict=True)) == min(kept)
    assert 20 < answered < 60


@pytest.mark.parametrize(("low", "there_is"), [(0.0, True), (1.0, False)])
def test_nothing_to_choose(low: float, *, there_is: bool) -> None:
    """Without columns there is an answer where nothing is asked."""
    rows = Rows()
    rows.row([], low=low)
    assert (rows.solve() is not None) is there_is
