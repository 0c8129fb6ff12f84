"""An integer programme, column by column and row by row, and its answer by HiGHS through SciPy."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import inf

#: Status of SciPy's `milp`: solved; no solution.
_SOLVED, _INFEASIBLE = 0, 2


@dataclass(frozen=True, slots=True)
class Answer:
    """A solution: whole numbers by column, and whether it is proven that none is better."""

    values: tuple[int, ...]
    proven: bool


class Rows:
    """An integer programme that is being written; every column is a whole number, and the sum of costs is least.

    The same columns and rows in the same order give the same answer: HiGHS is deterministic, and no clock stops it.
    """

    def __init__(self) -> None:
        self._costs: list[float] = []
        self._lows: list[float] = []
        self._highs: list[float] = []
        self._at: tuple[list[int], list[int], list[float]] = ([], [], [])
        self._row_lows: list[float] = []
        self._row_highs: list[float] = []

    def column(self, cost: float, high: float) -> int:
        """Add a whole number from 0 to `high` at `cost` each; return its number."""
        self._costs.append(cost)
        self._lows.append(0.0)
        self._highs.append(high)
        return len(self._costs) - 1

    def row(self, items: Iterable[tuple[int, float]], low: float = -inf, high: float = inf) -> None:
        """Keep a weighted sum of columns between two ends."""
        number = len(self._row_lows)
        for column, weight in items:
            self._at[0].append(number)
            self._at[1].append(column)
            self._at[2].append(weight)
        self._row_lows.append(low)
        self._row_highs.append(high)

    def solve(self, nodes: int | None = None) -> Answer | None:
        """Return the cheapest solution; None where there is none, or none was found within the limit.

        Args:
            nodes: stop after so many nodes of the search tree [-]; None for never.

        Raises:
            ArithmeticError: the solver failed, which no input should bring about.
        """
        if not self._costs:
            return Answer((), proven=True) if all(low <= 0 for low in self._row_lows) else None
        import numpy as np  # noqa: PLC0415  # a night without advice needs none of it
        from scipy.optimize import Bounds, LinearConstraint, milp  # noqa: PLC0415
        from scipy.sparse import csc_array  # noqa: PLC0415

        rows, columns, weights = self._at
        matrix = csc_array((weights, (rows, columns)), shape=(len(self._row_lows), len(self._costs)))
        result = milp(
            np.array(self._costs),
            integrality=np.ones(len(self._costs), dtype=np.int64),
            bounds=Bounds(np.array(self._lows), np.array(self._highs)),
            constraints=LinearConstraint(matrix, np.array(self._row_lows), np.array(self._row_highs)),
            options={"mip_rel_gap": 0.0} if nodes is None else {"mip_rel_gap": 0.0, "node_limit": nodes},
        )
        # With a limit, whatever stopped the search is the limit; SciPy has no word for some of them.
        if nodes is None and result.status not in {_SOLVED, _INFEASIBLE}:
            raise ArithmeticError(f"the solver failed: {result.message}")
        if result.x is None:
            return None
        return Answer(tuple(round(float(value)) for value in result.x), proven=result.status == _SOLVED)
