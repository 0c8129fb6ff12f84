"""Which windows are worth a reminder on which night, asked of the example book and of windows made by hand."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from soilrota.delivery.window_events import window_events
from soilrota.model.applications import Application, Standing
from soilrota.model.client import Client, Decision
from soilrota.model.messages import Urgency
from soilrota.model.reminder_choices import LeadTimes, ReminderKind
from soilrota.model.reminders import Event
from soilrota.model.windows import State
from soilrota.problems import Place
from soilrota.timing import tasks_of, window_of
from tests.delivery.reminding import anvil, visit

TIMES = LeadTimes()
#: Barn's season is 20 January to 31 March 2027; it was sampled before and nothing closes it.
OPENS, CLOSES = date(2027, 1, 20), date(2027, 3, 31)


def plain(**changes: object) -> Client:
    """Return the first client with the home block's barn alone, no spreadings and no decisions."""
    client = anvil()
    farm = client.farms[0]
    barn = next(zone for zone in farm.zones if zone.id == "barn")
    notes = tuple(note for note in client.field_notes if note.zone == "barn" and note.day < OPENS)
    results = tuple(one for one in client.results if one.zone == "barn")
    kept = replace(
        client, farms=(replace(farm, zones=(barn,)),), applications=(), decisions=(), field_notes=notes, results=results
    )
    return replace(kept, **changes)  # type: ignore[arg-type]


def events(client: Client, as_of: date, *visits: object) -> dict[ReminderKind, Event]:
    """Return what is worth a reminder, by kind."""
    windows = [window_of(task, as_of) for task in tasks_of(client)]
    found = list(window_events(client, windows, visits, as_of, TIMES))  # type: ignore[arg-type]
    assert len(found) == len({one.kind for one in found})
    return {one.kind: one for one in found}


def spreading(day: date) -> Application:
    """Return lime that is planned for a day."""
    place = Place("clients/anvil-creek/applications.csv", 2)
    return Application("home", ("barn",), "lime", "ground limestone", day, day, Standing.PLANNED, 2000.0, place)


@pytest.mark.parametrize(("before", "said"), [(22, False), (21, True), (1, True), (0, False)])
def test_a_window_is_announced_within_its_lead_time(before: int, *, said: bool) -> None:
    """From three weeks before the first worked day on, and no more once it is open."""
    found = events(plain(), OPENS - timedelta(days=before))
    assert (ReminderKind.OPENS_SOON in found) is said
    if said:
        assert found[ReminderKind.OPENS_SOON].facts["first"] == OPENS
        assert found[ReminderKind.OPENS_SOON].day == OPENS


def test_its_name_does_not_hang_on_its_days() -> None:
    """Lime that opens the window later leaves the event the same, so that it is said once."""
    first = events(plain(), OPENS - timedelta(days=3))[ReminderKind.OPENS_SOON]
    lime = replace(spreading(date(2026, 11, 1)), standing=Standing.DONE)
    later = events(plain(applications=(lime,)), date(2027, 1, 28))[ReminderKind.OPENS_SOON]
    assert first.facts["first"] < later.facts["first"]
    assert (first.name, first.day) == (later.name, later.day)


def test_the_best_day_is_said_unless_somebody_is_placed() -> None:
    """Its day is near and nobody is placed: said; with a visit in the calendar the visit speaks for itself."""
    client = plain()
    best = window_of(tasks_of(client)[0], OPENS).preferred
    assert best is not None
    night = best - timedelta(days=5)
    assert events(client, night)[ReminderKind.BEST_DAY].day == best
    assert ReminderKind.BEST_DAY not in events(client, night, visit(best, "ned-marlow", "barn"))
    assert ReminderKind.BEST_DAY not in events(client, best + timedelta(days=1))


def test_last_days_are_said_and_get_urgent() -> None:
    """Two weeks before the end it is said, five days before it is urgent; a visit in time keeps it quiet."""
    client = plain()
    assert ReminderKind.CLOSING not in events(client, CLOSES - timedelta(days=15))
    assert events(client, CLOSES - timedelta(days=14))[ReminderKind.CLOSING].urgency is Urgency.SOON
    assert events(client, CLOSES - timedelta(days=5))[ReminderKind.CLOSING].urgency is Urgency.URGENT
    night = CLOSES - timedelta(days=10)
    assert ReminderKind.CLOSING not in events(client, night, visit(CLOSES - timedelta(days=2), "ned-marlow", "barn"))
    assert ReminderKind.CLOSING in events(client, night, visit(CLOSES + timedelta(days=2), "ned-marlow", "barn"))


def test_a_planned_spreading_asks_to_sample_first() -> None:
    """Lime in the season: days before it are named; the event's day is the spreading's, so a moved one is news."""
    found = events(plain(applications=(spreading(date(2027, 2, 10)),)), date(2027, 1, 25))[ReminderKind.SPREADING]
    assert (found.day, found.facts["last"]) == (date(2027, 2, 10), date(2027, 2, 9))
    moved = events(plain(applications=(spreading(date(2027, 2, 20)),)), date(2027, 1, 25))[ReminderKind.SPREADING]
    assert (moved.name, moved.day) == (found.name, date(2027, 2, 20))


def test_a_spreading_knows_the_visit_that_comes_before_it() -> None:
    """Whoever is told to sample first is told that somebody comes; a visit after it helps nobody."""
    client, night = plain(applications=(spreading(date(2027, 2, 10)),)), date(2027, 1, 25)
    in_time = events(client, night, visit(date(2027, 2, 4), "ned-marlow", "barn"))[ReminderKind.SPREADING]
    assert in_time.facts["visit"] == date(2027, 2, 4)
    late = events(client, night, visit(date(2027, 2, 10), "ned-marlow", "barn"))[ReminderKind.SPREADING]
    assert "visit" not in late.facts


def test_a_spreading_that_only_moves_the_window_is_not_spoken_of() -> None:
    """Lime before the season, with days left after its gap, asks nothing of anybody."""
    assert ReminderKind.SPREADING not in events(plain(applications=(spreading(date(2026, 12, 8)),)), date(2026, 12, 1))


def test_a_spreading_that_leaves_no_day_is_spoken_of_with_the_way_out() -> None:
    """Lime just before the season that takes all of it: it says until when sampling goes if the lime is put off."""
    client = plain(applications=(spreading(date(2027, 1, 19)),))
    assert window_of(tasks_of(client)[0], date(2027, 1, 10)).state is State.NO_DAY_LEFT
    found = events(client, date(2027, 1, 10))[ReminderKind.SPREADING]
    assert "last" not in found.facts
    assert found.facts["until"] == CLOSES


def test_overdue_is_said_again_and_again() -> None:
    """After the season it is overdue, named by the season that was missed, and repeats."""
    first = events(plain(), date(2027, 4, 2))[ReminderKind.OVERDUE]
    later = events(plain(), date(2027, 9, 2))[ReminderKind.OVERDUE]
    assert (first.name, first.repeats, first.apart_days) == (later.name, True, TIMES.overdue_again_days)
    assert "2027-01-20" in first.name
    assert later.facts["months"] == 5


def test_a_decision_says_where_its_samples_stand() -> None:
    """A decision is said with what is not sampled, and the last day; sampled, it says that results are out."""
    decision = Decision("topsoil-pasture", (), date(2027, 3, 20), "order of lime", Place("client.yaml"))
    client = plain(decisions=(decision,))
    found = events(client, date(2027, 2, 25))[ReminderKind.DECISION]
    assert found.facts["unsampled"] == ("Barn",)
    assert found.facts["last"] < decision.day
    assert found.urgency is Urgency.SOON
    note = replace(anvil().field_notes[0], zone="barn", day=date(2027, 2, 20))
    sampled = replace(client, field_notes=(*client.field_notes, note))
    assert events(sampled, date(2027, 2, 25))[ReminderKind.DECISION].facts["out"] == ("Barn",)
    assert ReminderKind.DECISION not in events(client, date(2027, 3, 21))
