"""Lines and classes of rows: every value in exactly one class, edges as documented."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.agronomy.critical import Line, is_under, line_of, settled_class, value_on
from soilrota.model.guideline import GuidelineRow, PowerLine
from tests.agronomy.small_sets import classes, row

EDGES = st.lists(st.integers(1, 400), min_size=1, max_size=6, unique=True).map(sorted)


def name_of(held: GuidelineRow, value: float, qualifier: str = "") -> str:
    """Return the id of a value's class; empty without."""
    found = settled_class(held, qualifier, value)
    return found.name if found else ""


def test_a_class_holds_its_lower_edge() -> None:
    """5.5 belongs to the class that begins there, whatever the last binary digit says."""
    held = row(classes=classes(5.5, 6.0))
    assert [name_of(held, value) for value in (5.4, 5.5, 5.999, 6.0)] == ["c0", "c1", "c1", "c2"]
    assert name_of(row(classes=classes(31)), 30.999999999999996) == "c1"
    assert name_of(row(classes=classes(0.3)), 0.1 + 0.2) == "c1"


def test_whole_bounds_are_rounded_first() -> None:
    """0-9, 10-15, 16-25: 9.49 is 9, 9.5 is 10, 15.5 is 16; not the even one."""
    held = row(classes=classes(10, 16, 26), decimals=0)
    assert [name_of(held, value) for value in (9.49, 9.5, 15.49, 15.5, 24.5, 25.5)] == [
        "c0", "c1", "c1", "c2", "c2", "c3",
    ]  # fmt: skip
    assert name_of(row(classes=classes(0.15), decimals=2), 0.145) == "c1"


@settings(deadline=None)
@given(EDGES, st.integers(0, 100_000), st.sampled_from([None, 0, 1, 2]))
def test_every_value_has_exactly_one_class(edges: list[int], thousandths: int, decimals: int | None) -> None:
    """The class is the only one that a slow reading of the rule allows."""
    held, value = row(classes=classes(*edges), decimals=decimals), thousandths / 250
    exact = Decimal(thousandths) / 250
    if decimals is not None:
        exact = exact.quantize(Decimal(10) ** -decimals, rounding=ROUND_HALF_UP)
    slow = [
        one.name
        for one in held.classes
        if (one.low is None or exact >= Decimal(one.low)) and (one.high is None or exact < Decimal(one.high))
    ]
    assert slow == [name_of(held, value)]


@settings(deadline=None)
@given(EDGES, st.integers(0, 450), st.sampled_from(["<", ">"]))
def test_a_censored_value_has_a_class_where_all_that_it_may_be_has_the_same(
    edges: list[int], limit: int, qualifier: str
) -> None:
    """A fine walk over everything that the value may be finds one class, or the value has none."""
    held = row(classes=classes(*edges))
    steps = (number / 4 for number in range(4 * 500))
    possible = {name_of(held, one) for one in steps if (one < limit if qualifier == "<" else one > limit)}
    if limit > 0:
        assert name_of(held, limit, qualifier) == (possible.pop() if len(possible) == 1 else "")


def test_a_row_without_classes_or_with_a_hole() -> None:
    """No class is made up."""
    assert name_of(row(), 20) == ""
    assert name_of(row(classes=classes(10, 20)[1:2]), 5) == ""
    assert name_of(row(classes=classes(10, 20)[1:2]), 5, ">") == ""


def test_lines() -> None:
    """A fixed line with its interval, a line that follows a covariate, none."""
    assert line_of(row(critical_low=25.0, critical_high=36.0)) == Line(30.0, 25.0, 36.0)
    assert line_of(row(critical=None)) is None
    follows = row(critical=None, line=PowerLine("clay-percent", 19.6, 1.1, 0.55))
    found = line_of(follows, 70.0)
    assert found is not None
    assert found.critical == pytest.approx(19.6 + 1.1 * 70**0.55)
    assert line_of(follows) is None


@pytest.mark.parametrize(("covariate", "exponent"), [(0.0, -1.0), (-2.0, 0.5), (1e200, 3.0)])
def test_a_line_without_a_value(covariate: float, exponent: float) -> None:
    """Nought to a negative power, a broken power of a negative number, more than a number holds."""
    assert value_on(PowerLine("clay-percent", 1.0, 1.0, exponent), covariate) is None


def test_on_the_line_is_not_under_it() -> None:
    """Noise in the last digit does not put a value under its line."""
    assert not is_under(30.0, 30.0)
    assert not is_under(29.999999999999996, 30.0)
    assert is_under(29.99, 30.0)
