"""An answer explained in text: the reasons in order, each with its file and line, and what would change it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from soilrota.documents.dates import counted, long_day
from soilrota.documents.moisture_sentences import recorded_sentence
from soilrota.documents.sentences import (
    overdue_words,
    preferred_words,
    reason_sentence,
    window_words,
)
from soilrota.documents.way_out_sentences import way_out_sentence
from soilrota.documents.words import STATES, material_words
from soilrota.language import say, say_as, speaking
from soilrota.model.changes import Change, ChangeKind
from soilrota.model.client import Client
from soilrota.model.windows import Reason, Rule, Window


def explanation(client: Client, window: Window, changes: Iterable[Change]) -> tuple[str, ...]:
    """Return the explanation of one window in the client's language, a line an entry.

    Args:
        client: the client of the task.
        window: the answer.
        changes: what would change it.
    """
    with speaking(client.language):
        return tuple(_lines(client, window, tuple(changes)))


def _lines(client: Client, window: Window, changes: tuple[Change, ...]) -> Iterator[str]:
    """Yield the lines."""
    language = client.language
    farm = next(farm for farm in client.farms if farm.id == window.key.farm)
    zone = next(zone for zone in farm.zones if zone.id == window.key.zone)
    state = say(STATES[window.state])
    if window.overdue_months is not None:
        state = f"{state} {overdue_words(window.overdue_months)}"
    yield f"{zone.name}, {farm.name}: {client.protocols[window.key.protocol].name}"
    standing = say(
        "{state}. Open: {days}. Best day: {best}.",
        state=state,
        days=window_words(window, language),
        best=preferred_words(window, language) or say_as("day", "none"),
    )
    yield f"  {standing}"
    why = say("Why:")
    yield f"  {why}"
    season = client.practice.seasons[window.season.name].name
    for number, reason in enumerate(window.reasons, 1):
        yield f"  {number:>3}. {reason_sentence(reason, season, language)}{_where(reason)}"
        if reason.rule is Rule.MOISTURE and (recorded := recorded_sentence(reason, language)):
            yield f"       {recorded}"
    if window.ways_out:
        ways_out = say("Ways out:")
        yield f"  {ways_out}"
        yield from (f"    - {way_out_sentence(way, language)}" for way in window.ways_out)
    if changes:
        heading = say("What would change it:")
        yield f"  {heading}"
        yield from (f"    - {change_sentence(change, language)} ({change.place})" for change in changes)


def _where(reason: Reason) -> str:
    """Return the record that a reason comes from, in brackets."""
    return f" ({reason.place})" if reason.place is not None else ""


def change_sentence(change: Change, language: str) -> str:
    """Return a change as a sentence."""
    what = material_words(*change.what)
    if change.kind is ChangeKind.DATED:
        return say("Write the date of the spreading of {what}: then the window is known.", what=what)
    follows = _follows(change, language)
    if change.kind is ChangeKind.DROPPED:
        return say("Without the spreading of {what} {follows}.", what=what, follows=follows)
    days = counted(change.days, "day", "days")
    if change.kind is ChangeKind.EARLIER:
        moved = say("Move the spreading of {what} {days} earlier", what=what, days=days)
    else:
        moved = say("Move the spreading of {what} {days} later", what=what, days=days)
    first = f" ({_to_day(change.first_day, language)})" if change.first_day else ""
    return f"{moved}{first}: {follows}."


def _to_day(day: date, language: str) -> str:
    """Return the day to which a spreading would move."""
    return say("to {day}", day=long_day(day, language))


def _follows(change: Change, language: str) -> str:
    """Return what would follow from a change, as the end of a sentence."""
    opens = long_day(change.opens, language) if change.opens else ""
    if change.preferred is None:
        return say("there is a day, and the first open day {opens}", opens=opens) if opens else say("there is a day")
    best = long_day(change.preferred, language)
    if opens:
        return say("the best day is {best}, and the first open day {opens}", best=best, opens=opens)
    return say("the best day is {best}", best=best)
