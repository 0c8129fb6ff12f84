"""One zone by itself: whether its needs can be met, at what least cost, and how much of an input it can get."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import inf

from soilrota.agronomy.mix.cases import Choice, ZoneCase
from soilrota.agronomy.mix.rows import Rows
from soilrota.model.advice import Input

_KG_A_TONNE = 1000.0


@dataclass(frozen=True, slots=True)
class Columns:
    """The two columns of a choice: steps of its rate, and whether it is spread at all."""

    steps: int
    used: int


def add_zone(
    rows: Rows, case: ZoneCase, floors: Mapping[Input, float], costs: Mapping[str, tuple[float, float]]
) -> tuple[Columns, ...]:
    """Add a zone to a programme: rates in steps, needs met, maxima kept. Return the columns of its choices.

    Args:
        rows: the programme.
        case: the zone.
        floors: what it gets at least, by input [unit of the need].
        costs: cost of a step and of being spread, by product.
    """
    columns = []
    for choice in case.choices:
        a_step, a_use = costs[choice.product.id]
        pair = Columns(rows.column(a_step, choice.highest), rows.column(a_use, 1))
        rows.row([(pair.steps, 1), (pair.used, -choice.lowest)], low=0)
        rows.row([(pair.steps, 1), (pair.used, -choice.highest)], high=0)
        columns.append(pair)
    pairs = tuple(columns)
    for input_ in Input:
        floor = floors.get(input_, 0.0)
        if floor > 0:
            _meet(rows, case.choices, pairs, input_, floor)
        most = case.windows[input_].most
        held = [(pair.steps, one.whole[input_]) for one, pair in _with(case.choices, pairs) if input_ in one.whole]
        if held and most < inf:
            rows.row(held, high=most)
    return pairs


def _meet(rows: Rows, choices: tuple[Choice, ...], pairs: tuple[Columns, ...], input_: Input, floor: float) -> None:
    """Meet a need; and, which follows from it and helps the solver, use products that can meet all of it together."""
    given = [(pair, one) for one, pair in _with(choices, pairs) if input_ in one.counts]
    rows.row([(pair.steps, one.counts[input_]) for pair, one in given], low=floor)
    rows.row([(pair.used, min(1.0, one.highest * one.counts[input_] / floor)) for pair, one in given], low=1 - 1e-9)


def _with(choices: tuple[Choice, ...], pairs: tuple[Columns, ...]) -> list[tuple[Choice, Columns]]:
    """Return each choice with its columns."""
    return list(zip(choices, pairs, strict=True))


def is_feasible(case: ZoneCase, floors: Mapping[Input, float]) -> bool:
    """Return whether a zone can get at least `floors` without passing a maximum."""
    rows = Rows()
    add_zone(rows, case, floors, {choice.product.id: (0.0, 1.0) for choice in case.choices})
    return rows.solve() is not None


@dataclass(frozen=True, slots=True)
class Alone:
    """The cheapest way for a zone by itself, packs and calls left aside: no mix of a farm spends less on it.

    Attributes:
        steps: of each product that is spread.
        cost: what it costs [currency/ha].
        without: the least cost without each of these products [currency/ha]; None where it cannot be done.
    """

    steps: Mapping[str, int]
    cost: float
    without: Mapping[str, float | None]


def cheapest(case: ZoneCase, floors: Mapping[Input, float], pass_price_ha: float) -> Alone:
    """Return the cheapest way for a zone by itself. The floors must be feasible.

    Args:
        case: the zone.
        floors: what it gets at least, by input [unit of the need].
        pass_price_ha: price of a pass [currency/ha].
    """
    best = _cheapest(case, floors, pass_price_ha)
    if best is None:
        raise ArithmeticError(f"zone {case.zone} was feasible and is no more")
    steps, cost = best
    without: dict[str, float | None] = {}
    for id_ in steps:
        other = _cheapest(
            replace(case, choices=tuple(one for one in case.choices if one.product.id != id_)), floors, pass_price_ha
        )
        without[id_] = None if other is None else other[1]
    return Alone(steps, cost, without)


def _cheapest(
    case: ZoneCase, floors: Mapping[Input, float], pass_price_ha: float
) -> tuple[dict[str, int], float] | None:
    """Return the cheapest steps by product and their cost [currency/ha]; None where the floors cannot be met."""
    costs = costs_a_hectare(case, pass_price_ha)
    rows = Rows()
    pairs = add_zone(rows, case, floors, costs)
    answer = rows.solve()
    if answer is None:
        return None
    steps = {
        choice.product.id: answer.values[pair.steps]
        for choice, pair in _with(case.choices, pairs)
        if answer.values[pair.steps]
    }
    return steps, sum(costs[id_][0] * number + costs[id_][1] for id_, number in steps.items())


def costs_a_hectare(case: ZoneCase, pass_price_ha: float) -> dict[str, tuple[float, float]]:
    """Return what a step costs, and what spreading costs, by product [currency/ha]; packs left aside."""
    return {
        one.product.id: (one.product.price_per_t * one.step_kg_ha / _KG_A_TONNE, one.passes * pass_price_ha)
        for one in case.choices
    }


def most_of(case: ZoneCase, input_: Input, floors: Mapping[Input, float]) -> float:
    """Return the most of an input that a zone can get beside `floors`, up to its need [unit of the need].

    The floors must be feasible.
    """
    rows = Rows()
    worth = {one.product.id: (-one.counts.get(input_, 0.0), 0.0) for one in case.choices}
    pairs = add_zone(rows, case, {other: floor for other, floor in floors.items() if other is not input_}, worth)
    answer = rows.solve()
    if answer is None:
        raise ArithmeticError(f"zone {case.zone} was feasible and is no more")
    return sum(one.counts.get(input_, 0.0) * answer.values[pair.steps] for one, pair in _with(case.choices, pairs))
