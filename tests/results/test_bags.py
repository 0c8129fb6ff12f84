"""Results of one bag, and all that a value may be."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from math import inf

from hypothesis import given
from hypothesis import strategies as st

from soilrota.model.result_findings import ResultKey
from soilrota.results.bags import Between, bags_of, between, code_of
from tests.results.making import result

ENDS = st.floats(0, 1e6)


@st.composite
def ranges(draw: st.DrawFn) -> tuple[Between, float]:
    """Return a range and a value in it."""
    low, value, high = sorted(draw(st.tuples(ENDS, ENDS, ENDS)))
    return Between(low, high), value


def test_what_a_value_may_be() -> None:
    """A plain value is itself; below a limit from the glossary's lower limit on; above one without an end."""
    assert between(result("phosphorus.olsen", 12)) == Between(12, 12)
    assert between(result("phosphorus.olsen", "<5")) == Between(0, 5)
    assert between(result("ph.cacl2", "<4")) == Between(2, 4)
    assert between(result("phosphorus.olsen", ">200")) == Between(200, inf)


@given(ranges(), ranges())
def test_every_value_in_it_is_covered(one: tuple[Between, float], two: tuple[Between, float]) -> None:
    """Sums, differences and ratios of any two values lie in those of their ranges."""
    (a, x), (b, y) = one, two
    covers = [(a + b, x + y), (a - b, x - y), (a.times(3), 3 * x)]
    covers += [(a / b, x / y)] if y else []
    assert all(found.low - 1e-9 * abs(value) <= value <= found.high + 1e-9 * abs(value) for found, value in covers)


def test_bags_are_told_apart() -> None:
    """Report, zone, layer, day and bag make a bag; of a code that comes twice the last stands."""
    top = result("ph.cacl2", 5.1)
    others = [
        replace(top, report="r-2"),
        replace(top, zone="bank"),
        replace(top, top_cm=10, bottom_cm=20),
        replace(top, sampled=date(2027, 2, 11)),
        replace(top, bag="B2"),
    ]
    again, water = replace(top, value=5.2), result("ph.water", 5.9)
    bags = bags_of([top, *others, water, again])
    assert [bag.key for bag in bags] == [ResultKey.of(one) for one in (top, *others)]
    assert bags[0].results == {"ph.cacl2": again, "ph.water": water}
    assert code_of(water) == "ph.water"
