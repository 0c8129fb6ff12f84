"""Span arithmetic against sets of days."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from soilrota.model.windows import Span
from soilrota.timing.spans import between, clip, intersect, subtract, union
from tests.timing.making import day, span

START = date(2028, 1, 1)
NUMBERS = st.tuples(st.integers(0, 90), st.integers(0, 20))
SPANS = st.lists(
    NUMBERS.map(lambda pair: Span(START + timedelta(days=pair[0]), START + timedelta(days=sum(pair)))), max_size=8
)


def days(spans: list[Span] | tuple[Span, ...]) -> set[date]:
    """Return every day of the spans."""
    return {span.first + timedelta(days=number) for span in spans for number in range(span.days)}


def assert_tidy(spans: tuple[Span, ...]) -> None:
    """Fail unless the spans are sorted, disjoint and not touching."""
    assert all(one.first <= one.last for one in spans)
    assert all(one.last + timedelta(days=1) < other.first for one, other in pairwise(spans))


@given(SPANS, SPANS)
def test_arithmetic_equals_arithmetic_of_days(spans: list[Span], others: list[Span]) -> None:
    """Union, difference and intersection hold exactly the days that sets of days hold."""
    for found, expected in (
        (union([*spans, *others]), days(spans) | days(others)),
        (subtract(spans, others), days(spans) - days(others)),
        (intersect(spans, others), days(spans) & days(others)),
    ):
        assert days(found) == expected
        assert_tidy(found)


@given(SPANS, NUMBERS)
def test_clipping_keeps_the_days_between(spans: list[Span], limits: tuple[int, int]) -> None:
    """Days before the first and after the last are dropped, and no other."""
    first = START + timedelta(days=limits[0])
    last = first + timedelta(days=limits[1])
    assert days(clip(spans, first, last)) == {found for found in days(spans) if first <= found <= last}


def test_nothing_lies_between_days_in_the_wrong_order() -> None:
    """A first day after the last gives no span."""
    assert between(day("2028-03-02"), day("2028-03-01")) == ()
    assert clip((span("2028-01-01", "2028-12-31"),), day("2028-03-02"), day("2028-03-01")) == ()


def test_the_ends_of_the_calendar_are_days_like_others() -> None:
    """Spans that reach to the first or last day of the calendar overflow nowhere."""
    everything = Span(date.min, date.max)
    assert subtract((everything,), (everything,)) == ()
    assert subtract((everything,), (span("2028-03-01", "2028-03-31"),)) == (
        Span(date.min, day("2028-02-29")),
        Span(day("2028-04-01"), date.max),
    )
    assert union((everything, span("2028-03-01", "2028-03-31"))) == (everything,)
