"""When a message is tried again, and when no more."""

from __future__ import annotations

from datetime import timedelta

from soilrota.delivery.retry import FIRST_WAIT, LONGEST_LIFE, LONGEST_WAIT, is_too_old, next_attempt
from tests.delivery.making import MORNING


def test_waits_double_up_to_the_longest() -> None:
    """Half an hour, an hour, two, …, sixteen hours and no more, however often it was tried."""
    hours = [(next_attempt(attempts, MORNING) - MORNING) / timedelta(hours=1) for attempts in (1, 2, 3, 4, 5, 6, 7, 50)]
    assert hours == [0.5, 1, 2, 4, 8, 16, 16, 16]


def test_waits_are_those_that_the_protocol_recommends() -> None:
    """RFC 5321, section 4.5.4.1: the first wait at least 30 minutes, given up after at least 4 to 5 days."""
    assert timedelta(minutes=30) <= FIRST_WAIT < LONGEST_WAIT < timedelta(days=1)
    assert LONGEST_LIFE >= timedelta(days=4)


def test_too_old_is_older_than_its_life() -> None:
    """To the moment."""
    assert not is_too_old(MORNING, MORNING + LONGEST_LIFE)
    assert is_too_old(MORNING, MORNING + LONGEST_LIFE + timedelta(microseconds=1))
