"""Days and counts in words."""

from __future__ import annotations

from datetime import date

import pytest

from soilrota.delivery.days import away_words, counted, date_words, day_words, joined, time_words

NIGHT = date(2027, 12, 20)


@pytest.mark.parametrize(
    ("day", "language", "words"),
    [
        (date(2027, 1, 5), "en-AU", "Tuesday 5 January"),
        (date(2028, 1, 5), "en-GB", "Wednesday 5 January"),
        (date(2028, 3, 5), "en-GB", "Sunday 5 March 2028"),
        (date(2027, 12, 24), "en-US", "Friday, December 24"),
        (date(2028, 7, 4), "en-US", "Tuesday, July 4, 2028"),
    ],
)
def test_days_have_their_weekday_and_a_year_where_it_helps(day: date, language: str, words: str) -> None:
    """This year and the weeks to come need no year; the order is the country's."""
    assert day_words(day, language, NIGHT) == words


def test_other_words() -> None:
    """Dates, distances, counts, lists, times."""
    assert date_words(NIGHT, "en-NZ") == "20 December 2027"
    assert [away_words(date(2027, 12, day), NIGHT) for day in (20, 21, 22)] == ["today", "tomorrow", "in 2 days"]
    assert [counted(number, "bag", "bags") for number in (0, 1, 2)] == ["0 bags", "1 bag", "2 bags"]
    assert [joined([]), joined(["a"]), joined("abc")] == ["", "a", "a, b and c"]
    assert [time_words(minutes) for minutes in (5, 44, 62, 105)] == [
        "half an hour",
        "45 minutes",
        "1 hour",
        "1 hour and 45 minutes",
    ]
