"""What came of advice: what was spread since, and whether the next result moved as was to be expected."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from random import Random

import pytest

from soilrota.agronomy.afterwards import followed_up
from soilrota.agronomy.comparable import Run
from soilrota.agronomy.doubt import evidence_of
from soilrota.agronomy.trend import trend_of
from soilrota.model.applications import Standing
from soilrota.model.follow_up import Done, Moved, NextResult
from tests.agronomy.counts import RANDOM_CLIENTS
from tests.agronomy.follow_ups import (
    ADVISED,
    NEED,
    NEXT,
    RECORD,
    SAMPLED,
    SPREAD,
    TEST,
    TODAY,
    P,
    applied,
    came_of,
    client,
    following,
)
from tests.results.making import result


def next_of(after: str | float, *kg: float, lift: tuple[float | None, float | None] = (2.0, 4.0)) -> NextResult:
    """Return what the next result says after so much phosphorus [kg/ha]."""
    test = replace(TEST, lift_low=lift[0], lift_high=lift[1])
    record = replace(RECORD, needs=(replace(NEED, test=test),))
    found = came_of(client(*(applied(one) for one in kg), after=after), record).next_result
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("kg", "done"),
    [((14,), Done.WITHIN), ((5, 5), Done.WITHIN), ((5,), Done.LESS), ((25,), Done.MORE), ((), Done.NOTHING)],
)
def test_what_was_spread_is_held_against_the_range(kg: tuple[float, ...], done: Done) -> None:
    """All rows of the product together, by what it holds."""
    found = came_of(client(*(applied(one) for one in kg)))
    assert found.done is done
    assert found.spread == pytest.approx(sum(kg))
    assert found.spread_until == (SPREAD if kg else None)
    assert found.next_result is None


def test_what_was_planned_already_is_asked_for_on_top() -> None:
    """A planned dressing was taken off the need: spread, it alone is too little."""
    record = replace(RECORD, needs=(replace(NEED, planned=10.0),))
    assert came_of(client(applied(14)), record).done is Done.LESS
    assert came_of(client(applied(10), applied(14)), record).done is Done.WITHIN


def test_nothing_advised_and_nothing_spread_is_as_advised() -> None:
    """And anything beyond the range is more."""
    record = replace(RECORD, needs=(replace(NEED, amount=0.0, low=0.0, high=3.0),))
    assert came_of(client(), record).done is Done.WITHIN
    assert came_of(client(applied(4)), record).done is Done.MORE


def test_only_what_was_done_on_this_zone_since_counts() -> None:
    """Not what is planned, cancelled, before the advice, after the day, or on another zone."""
    others = (
        applied(14, standing=Standing.PLANNED),
        applied(14, standing=Standing.CANCELLED),
        applied(14, ADVISED),
        applied(14, date(2028, 7, 1)),
        replace(applied(14), zones=("elsewhere",)),
    )
    assert came_of(client(*others)).done is Done.NOTHING


def test_what_nobody_knows_is_not_guessed() -> None:
    """A material of no product, an unknown day; more than the range is more all the same."""
    unknown = replace(applied(14), material="something")
    found = came_of(client(unknown, applied(3)))
    assert (found.done, found.spread, found.cautions) == (Done.NOT_KNOWN, 3.0, ("applied-unknown",))
    assert came_of(client(applied(14, None))).cautions == ("applied-undated",)
    assert came_of(client(unknown, applied(30))).done is Done.MORE


def test_a_record_counts_until_the_next_one() -> None:
    """The later advice first; the same day again replaces it; a future one is not there yet."""
    later = replace(RECORD, day=date(2027, 9, 1))
    of = client(applied(14), applied(3, date(2027, 10, 1)))
    found = followed_up(of, [later, RECORD], following())
    assert [(one.advised_on, one.spread) for one in found] == [(later.day, 3.0), (ADVISED, 14.0)]
    again = replace(RECORD, digest="e" * 64)
    assert len(followed_up(of, [RECORD, again], following())) == 1
    assert followed_up(of, [later], following(date(2027, 8, 1))) == ()


def test_zones_that_are_gone_are_left_out() -> None:
    """Nobody can be told of them."""
    gone = replace(RECORD, needs=(replace(NEED, zone="gone"),))
    assert followed_up(client(), [gone], following()) == ()


def test_the_expected_change_is_what_was_kept_by_what_lifts() -> None:
    """(14 - one harvest of 2) / 2 to 4: between 3 and 6 mg/kg."""
    found = next_of(25, 14)
    assert (found.expected_low, found.expected_high) == (3.0, 6.0)
    assert (found.change, found.brought, found.harvests) == (5.0, 14.0, 1)
    assert found.verdict is Moved.TOO_SMALL_TO_TELL
    falling = next_of(19, 0)
    assert (falling.expected_low, falling.expected_high) == (-1.0, -0.5)


def test_what_was_spread_between_the_samplings_counts_even_before_the_advice() -> None:
    """The result saw it, whoever advised it."""
    found = came_of(client(applied(10, date(2027, 3, 1)), applied(4), after=24.0))
    assert found.spread == 4.0
    assert found.next_result is not None
    assert found.next_result.brought == 14.0


def test_verdicts_around_the_expected() -> None:
    """Against random amounts: by the slow reading of the rule, with every verdict seen."""
    random = Random(7)
    seen = set()
    for _ in range(RANDOM_CLIENTS):
        kg, after = random.choice((0.0, random.uniform(0, 900))), round(random.uniform(1, 600), 1)
        found = next_of(after, kg)
        assert found.expected_low == pytest.approx((kg - 2) / (4 if kg > 2 else 2))
        low, high = sorted(((kg - 2) / 2, (kg - 2) / 4))
        told = trend_of(Run((found.before, found.after), (), 0), evidence_of(client(after=after))).detectable
        assert found.detectable == told
        change = after - 20
        if all(abs(one) <= told for one in (low, high, change)):
            slow = Moved.TOO_SMALL_TO_TELL
        elif low - change > told:
            slow = Moved.LESS
        elif change - high > told:
            slow = Moved.MORE
        else:
            slow = Moved.AS_EXPECTED
        assert found.verdict is slow
        seen.add(slow)
    assert {Moved.LESS, Moved.MORE, Moved.AS_EXPECTED} <= seen


def test_without_a_factor_or_with_a_censored_value_nothing_is_expected() -> None:
    """The change is said where it can be."""
    found = next_of(60, 14, lift=(None, None))
    assert (found.verdict, found.change, found.expected_low) == (Moved.NO_FACTOR, 40.0, None)
    assert next_of("<5", 14).verdict is Moved.CENSORED


def test_a_result_that_does_not_compare_is_said_to_be_there() -> None:
    """By another method; one that compares goes first, even when it is older."""
    of = client(applied(14))
    other = result("phosphorus.olsen", 12.0, NEXT)
    found = came_of(replace(of, results=(*of.results, other))).next_result
    assert found is not None
    assert (found.verdict, found.change) == (Moved.NOT_COMPARABLE, None)
    both = replace(of, results=(*of.results, result(P, 22.0, date(2028, 2, 5)), other))
    again = came_of(both).next_result
    assert again is not None
    assert again.verdict is not Moved.NOT_COMPARABLE


def test_results_before_the_advice_or_without_their_first_say_nothing() -> None:
    """A corrected away first result, a barred one, a need without a test."""
    of = client(applied(14), after=24.0)
    assert came_of(of, on=date(2027, 12, 1)).next_result is None
    assert came_of(replace(of, results=tuple(one for one in of.results if one.sampled != SAMPLED))).next_result is None
    assert came_of(of, replace(RECORD, needs=(replace(NEED, test=None),))).next_result is None
    assert came_of(of, on=TODAY).next_result is not None
