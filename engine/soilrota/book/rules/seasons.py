"""Seasons: their spans hold days, do not overlap, and serve the hemisphere of the client."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Iterator

from soilrota.book.parts import ClientParts, SharedParts
from soilrota.model.practice import MonthDay, MonthDaySpan
from soilrota.problems import Problem, error

_A_LEAP_YEAR = 2024
_YEAR = tuple(
    MonthDay(month, day) for month in range(1, 13) for day in range(1, monthrange(_A_LEAP_YEAR, month)[1] + 1)
)


def days_of(span: MonthDaySpan) -> frozenset[MonthDay]:
    """Return the days of a leap year that the span holds, both ends included; it may wrap the year end."""
    if span.first <= span.last:
        return frozenset(day for day in _YEAR if span.first <= day <= span.last)
    return frozenset(day for day in _YEAR if day >= span.first or day <= span.last)


def spans_do_not_overlap(parts: SharedParts) -> Iterator[Problem]:
    """The spans of a season on one hemisphere have no day in common."""
    for season in parts.seasons:
        for hemisphere, spans in season.value.spans.items():
            taken: set[MonthDay] = set()
            for i, span in enumerate(spans):
                days = days_of(span)
                if taken & days:
                    found = f"{_words(span)} overlaps an earlier span of season {season.value.id}"
                    mend = "join the spans, or move one"
                    yield error("spans-overlap", season.at(hemisphere.value, i), found, "spans apart", mend)
                taken |= days


def seasons_have_days(parts: SharedParts) -> Iterator[Problem]:
    """A season holds days on one hemisphere at least."""
    for season in parts.seasons:
        if not any(season.value.spans.values()):
            found = f"season {season.value.id} holds no day on either hemisphere"
            expected = "spans under southern or northern"
            yield error("season-without-days", season.at(), found, expected, "give it a span, or take it out")


def seasons_serve_the_hemisphere(parts: ClientParts) -> Iterator[Problem]:
    """The season of every protocol that a zone uses has days on the client's hemisphere."""
    seasons = parts.shared.practice.seasons
    for zone in parts.zones:
        for i, word in enumerate(zone.value.protocols):
            protocol = parts.protocols.get(word)
            season = seasons.get(protocol.season) if protocol else None
            if season and not season.spans.get(parts.hemisphere):
                found = f"protocol {word} has the season {season.id}, which has no days on the {parts.hemisphere} side"
                mend = f"give the season a {parts.hemisphere} span, or choose another protocol"
                yield error("season-not-here", zone.at("protocols", i), found, f"a {parts.hemisphere} season", mend)


def _words(span: MonthDaySpan) -> str:
    """Return the span as it is written."""
    return f"{span.first.month:02d}-{span.first.day:02d} to {span.last.month:02d}-{span.last.day:02d}"
