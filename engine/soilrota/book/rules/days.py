"""Days: in order, in a year that can be, and known."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from soilrota.book.limits import limits
from soilrota.book.parts import ClientParts, SharedParts
from soilrota.language import phrase
from soilrota.problems import Place, Problem, error, warning


def years_are_possible(parts: ClientParts) -> Iterator[Problem]:
    """Every day of the book lies between the earliest and the latest year that make sense."""
    earliest, latest = limits().earliest_year, limits().latest_year
    for day, place in parts.days():
        if not earliest <= day.year <= latest:
            expected = f"a day from {earliest} to {latest}"
            yield error("year-not-possible", place, f"the day {day.isoformat()}", expected, "correct the year")


def applications_end_after_they_start(parts: ClientParts) -> Iterator[Problem]:
    """The last day of spreading is not before the first."""
    for application in parts.applications:
        first, last = application.value.first_day, application.value.last_day
        if first is not None and last is not None and last < first:
            found = f"the last day {last.isoformat()} is before the first day {first.isoformat()}"
            yield error("days-reversed", application.at("last_day"), found, "", "swap the days or correct one")


def blackouts_end_after_they_start(parts: ClientParts) -> Iterator[Problem]:
    """The last day on which the client wants nobody is not before the first."""
    for blackout in parts.blackouts:
        yield from _reversed(blackout.value.first, blackout.value.last, blackout.at("last"))


def leave_ends_after_it_starts(parts: SharedParts) -> Iterator[Problem]:
    """The last day of leave is not before the first: the practice's, and that of each person."""
    for absence in parts.leave:
        yield from _reversed(absence.value.first, absence.value.last, absence.at("last"))
    for person in parts.people:
        for number, away in enumerate(person.value.leave):
            yield from _reversed(away.first, away.last, person.at("leave", number, "last"))


def _reversed(first: date, last: date, place: Place) -> Iterator[Problem]:
    """Yield an error where a span ends before it starts."""
    if last < first:
        found = f"the last day {last.isoformat()} is before the first day {first.isoformat()}"
        yield error("days-reversed", place, found, "", "swap the days or correct one")


def results_are_reported_after_sampling(parts: ClientParts) -> Iterator[Problem]:
    """A laboratory reports a sample on the day of sampling at the earliest."""
    for result in parts.results:
        sampled, reported = result.value.sampled, result.value.reported
        if reported < sampled:
            found = f"reported on {reported.isoformat()}, before sampling on {sampled.isoformat()}"
            yield error("days-reversed", result.at("reported"), found, "", "correct one of the two days")


def days_of_spreading_are_known(parts: ClientParts) -> Iterator[Problem]:
    """A spreading without its date leaves the windows of its zones unknown: said, so that somebody asks."""
    for application in parts.applications:
        value = application.value
        if value.first_day is None or value.last_day is None:
            column, found = (
                ("first_day", phrase("the first day of spreading {material} is not known", material=value.material))
                if value.first_day is None
                else ("last_day", phrase("the last day of spreading {material} is not known", material=value.material))
            )
            mend, expected = phrase("ask the client and write the date"), phrase("a date, as 2026-03-14")
            yield warning("day-not-known", application.at(column), found, expected, mend)
