"""A year of nights: each person gets each thing once, nobody gets a draft, nothing is said after the fact."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import date, timedelta

from soilrota.delivery.choosing import ClientNight, PracticeNight, lead_times, practice_reminders, reminders_of
from soilrota.model.reminder_choices import Audience, ReminderKind
from soilrota.model.reminders import ReportState, SetAsideFile
from soilrota.model.signing import SignState
from soilrota.problems import Place, error
from tests.delivery.reminding import NIGHT, anvil, clients, practice, signed, windows
from tests.delivery.year_of_nights import STEP, year

#: Most messages that a contact may get in the year.
CAP = 40


def test_nobody_is_told_the_same_twice() -> None:
    """An event and its day reach a person once in the year; one that repeats only after its time."""
    found: dict[tuple[str, str], date] = {}
    apart = {one.about: one.event.apart_days for some in year().reminders.values() for one in some if one.event.repeats}
    for night, messages in year().messages.items():
        for message in messages:
            for about in message.about:
                before = found.get((message.to_address, about))
                again = before is not None and about in apart and night >= before + timedelta(days=apart[about])
                assert before is None or again, (message.to_address, about)
                found[message.to_address, about] = night
    assert len(found) > 200


def test_opening_is_said_once_a_season() -> None:
    """However the days of a window move, that it opens soon is said once a season and person."""
    said = [
        (message.to_address, about.partition("@")[0])
        for messages in year().messages.values()
        for message in messages
        for about in message.about
        if about.startswith("opens-soon/")
    ]
    assert len(said) > 20
    assert max(Counter(said).values()) == 1


def test_every_window_that_opens_is_announced() -> None:
    """A contact is told of every task of which a window opened in the year, unless it was sampled or closed before."""
    told = {about for messages in year().messages.values() for one in messages for about in one.about}
    may = {one.about for some in year().reminders.values() for one in some if one.event.kind is ReminderKind.OPENS_SOON}
    assert may <= told


def test_nothing_is_said_after_the_fact() -> None:
    """The day that a reminder speaks of is never over on the night on which it is said."""
    days = {
        ReminderKind.OPENS_SOON: "first",
        ReminderKind.BEST_DAY: "best",
        ReminderKind.CLOSING: "last",
        ReminderKind.SPREADING: "spread",
        ReminderKind.DECISION: "decision",
    }
    seen = set()
    for night, reminders in year().reminders.items():
        for one in reminders:
            name = days.get(one.event.kind)
            if one.event.kind is ReminderKind.VISIT:
                assert one.event.facts.get("first", one.event.facts.get("gone")) >= night
                seen.add(one.event.kind)
            elif name is not None:
                assert one.event.facts[name] >= night
                seen.add(one.event.kind)
    assert seen == {*days, ReminderKind.VISIT}


def test_drafts_reach_the_adviser_alone() -> None:
    """While reports are drafts, no client is told of one; once signed, clients are told once."""
    told: Counter[str] = Counter()
    for reminders in year().reminders.values():
        for one in reminders:
            if one.event.kind is ReminderKind.DRAFT:
                assert one.to.id == clients()[one.event.client].adviser
                told["draft"] += 1
    for night, messages in year().messages.items():
        for message in messages:
            reports = [about for about in message.about if about.startswith("report/")]
            assert not reports or night >= date(2027, 5, 3)
            told["report"] += len(reports)
    assert told["draft"] > 10
    assert told["report"] >= len(clients())


def test_one_message_a_person_a_night_and_few_a_year() -> None:
    """No night has two messages to an address, and no contact gets more than the cap in the year."""
    count: Counter[str] = Counter()
    for messages in year().messages.values():
        addresses = [message.to_address.casefold() for message in messages]
        assert len(addresses) == len(set(addresses))
        count.update(addresses)
        assert [message.urgency for message in messages] == sorted(message.urgency for message in messages)
    contacts = {one.email for client in clients().values() for one in client.contacts if one.email}
    assert {address for address in contacts if count[address] > CAP} == set()
    assert sum(count.values()) > 100 / STEP


def test_a_report_that_may_not_stand_is_a_draft() -> None:
    """A report never signed, changed since, or with a broken record goes to the adviser alone, whatever lists say."""
    broken = SignState(signed(NIGHT).signature, (), (error("x", Place("a"), "b", "c", "d"),))
    everyone = {audience: frozenset(ReminderKind) for audience in Audience}
    choices = replace(anvil().practice.reminders, gets=everyone)
    client = replace(anvil(), practice=replace(anvil().practice, reminders=choices))
    for state in (SignState(None), signed(NIGHT, changed=("results changed",)), broken):
        night = ClientNight(client, (), report=ReportState(state, NIGHT))
        (only,) = reminders_of(night, NIGHT)
        assert (only.event.kind, only.to.id) == (ReminderKind.DRAFT, client.adviser)
    night = ClientNight(client, (), report=ReportState(signed(NIGHT), NIGHT))
    assert {one.event.kind for one in reminders_of(night, NIGHT)} == {ReminderKind.REPORT}


def test_the_same_night_gives_the_same_reminders() -> None:
    """Order and number of reminders do not hang on anything but their arguments."""
    night = ClientNight(anvil(), windows(anvil(), NIGHT))
    assert reminders_of(night, NIGHT) == reminders_of(night, NIGHT)


def test_a_client_may_set_lead_times() -> None:
    """What a client sets holds for the client; the rest is the practice's."""
    times = lead_times(clients()["brolga-plains"])
    assert (times.opens_days, times.closing_days) == (35, practice().reminders.times.closing_days)


def test_the_office_hears_of_rows_that_wait() -> None:
    """A file with rows set aside reaches the office and nobody else."""
    night = PracticeNight(practice(), (SetAsideFile("ab12", "r.csv", "north-bench", NIGHT, 2),))
    assert [one.to.id for one in practice_reminders(night, NIGHT)] == ["front-desk"]
