"""An answer explained in text: the reasons in order, each with its file and line, and what would change it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from soilrota.documents.dates import counted, long_day
from soilrota.documents.sentences import (
    overdue_words,
    preferred_words,
    reason_sentence,
    recorded_sentence,
    way_out_sentence,
    window_words,
)
from soilrota.documents.words import STATES, material_words
from soilrota.model.changes import Change, ChangeKind
from soilrota.model.client import Client
from soilrota.model.windows import Reason, Rule, Window


def explanation(client: Client, window: Window, changes: Iterable[Change]) -> tuple[str, ...]:
    """Return the explanation of one window, a line an entry.

    Args:
        client: the client of the task.
        window: the answer.
        changes: what would change it.
    """
    return tuple(_lines(client, window, tuple(changes)))


def _lines(client: Client, window: Window, changes: tuple[Change, ...]) -> Iterator[str]:
    """Yield the lines."""
    language = client.language
    farm = next(farm for farm in client.farms if farm.id == window.key.farm)
    zone = next(zone for zone in farm.zones if zone.id == window.key.zone)
    state = STATES[window.state]
    if window.overdue_months is not None:
        state = f"{state} {overdue_words(window.overdue_months)}"
    yield f"{zone.name}, {farm.name}: {client.protocols[window.key.protocol].name}"
    yield f"  {state}. Open: {window_words(window, language)}. Best day: {preferred_words(window, language) or 'none'}."
    yield "  Why:"
    season = client.practice.seasons[window.season.name].name
    for number, reason in enumerate(window.reasons, 1):
        yield f"  {number:>3}. {reason_sentence(reason, season, language)}{_where(reason)}"
        if reason.rule is Rule.MOISTURE and (recorded := recorded_sentence(reason, language)):
            yield f"       {recorded}"
    if window.ways_out:
        yield "  Ways out:"
        yield from (f"    - {way_out_sentence(way, language)}" for way in window.ways_out)
    if changes:
        yield "  What would change it:"
        yield from (f"    - {change_sentence(change, language)} ({change.place})" for change in changes)


def _where(reason: Reason) -> str:
    """Return the record that a reason comes from, in brackets."""
    return f" ({reason.place})" if reason.place is not None else ""


def change_sentence(change: Change, language: str) -> str:
    """Return a change as a sentence."""
    what = material_words(*change.what)
    if change.kind is ChangeKind.DATED:
        return f"Write the date of the spreading of {what}: then the window is known."
    best = f"the best day is {long_day(change.preferred, language)}" if change.preferred else "there is a day"
    opens = f", and the first open day {long_day(change.opens, language)}" if change.opens else ""
    if change.kind is ChangeKind.DROPPED:
        return f"Without the spreading of {what} {best}{opens}."
    first = f" (to {long_day(change.first_day, language)})" if change.first_day else ""
    return f"Move the spreading of {what} {counted(change.days, 'day', 'days')} {change.kind}{first}: {best}{opens}."
