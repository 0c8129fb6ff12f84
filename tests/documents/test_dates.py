"""Days and numbers in the client's form."""

from __future__ import annotations

from datetime import date

from soilrota.documents.dates import counted, days_words, joined, long_day, number, span_words, spans_words
from soilrota.model.windows import Span


def test_spans_across_the_year_end_name_both_years() -> None:
    """The year stands once where it is the same, twice where it is not; American spans in full."""
    wrap = Span(date(2026, 12, 1), date(2027, 2, 27))
    assert span_words(wrap, "en-AU") == "1 December 2026 to 27 February 2027"
    same = Span(date(2027, 1, 5), date(2027, 3, 1))
    assert span_words(same, "en-GB") == "5 January to 1 March 2027"
    assert span_words(same, "en-US") == "January 5, 2027 to March 1, 2027"
    assert spans_words((same, same), "en-GB") == "5 January to 1 March 2027 and 5 January to 1 March 2027"


def test_the_same_day_of_two_years_is_told_apart() -> None:
    """The last day of each year has its year."""
    holidays = [date(2027, 1, 26), date(2027, 3, 8), date(2028, 1, 26)]
    assert days_words(holidays, "en-AU") == "26 January, 8 March 2027 and 26 January 2028"
    assert days_words(holidays[:1], "en-US") == "January 26, 2027"


def test_small_words() -> None:
    """Lists, plurals and numbers."""
    assert joined([]) == ""
    assert counted(0, "core", "cores") == "0 cores"
    assert number(1234.5, "en-AU") == "1,234.5"
    assert long_day(date(2028, 2, 29), "en-NZ") == "29 February 2028"
