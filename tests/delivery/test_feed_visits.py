"""What stands in the feeds of a client and of a crew member."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from soilrota.delivery.feed_visits import (
    client_feed_visits,
    crew_feed,
    crew_feed_visits,
    placements,
    planned_visits,
)
from soilrota.delivery.feeds import next_feed
from soilrota.model.client import Client
from soilrota.model.field_calendar import PersonDay, Stop
from soilrota.model.reminders import Placement
from soilrota.timing import visits_of, visits_to_place
from tests.delivery.other_words import not_said
from tests.delivery.reminding import NIGHT, anvil, clients, practice, visit, windows

DAY = date(2027, 2, 10)


def test_names_of_the_files() -> None:
    """One a client, one a person."""
    assert crew_feed("ned-marlow") == "visits-ned-marlow.ics"


def test_a_split_visit_runs_from_its_first_to_its_last_day() -> None:
    """Parts on several days are one placement."""
    days = [
        PersonDay("ned-marlow", DAY + timedelta(days=number), (Stop("a/home/1", 60, part, 2),), 60, 0, 0.0)
        for number, part in ((1, 2), (0, 1))
    ]
    assert placements(days) == {"a/home/1": Placement("ned-marlow", DAY, DAY + timedelta(days=1))}


def test_visits_take_the_ids_of_the_field_calendar() -> None:
    """Every visit that the field calendar places is found under the same id."""
    for client in clients().values():
        answers = windows(client, NIGHT)
        farms = visits_of(client, answers)
        ids = [one.id for one in visits_to_place(client, farms, answers)]
        placed = {name: Placement("ned-marlow", DAY, DAY) for name in ids}
        made = planned_visits(client, farms, answers, placed)
        assert [one.id for one in made] == ids
        assert all((one.person, one.first) == ("ned-marlow", DAY) for one in made)


def test_a_visit_without_a_place_stands_still() -> None:
    """Its days are those of the season that are open for all its tasks, and the same the night after."""
    for client in clients().values():
        spans = []
        for night in (date(2027, 2, 1), date(2027, 2, 2)):
            answers = windows(client, night)
            spans.append(
                {
                    one.tasks: (one.first, one.last)
                    for one in planned_visits(client, visits_of(client, answers), answers, {})
                }
            )
        for tasks, span in spans[0].items():
            assert spans[1].get(tasks, span) == span


def test_the_client_reads_who_comes_and_the_crew_where_to() -> None:
    """Placed: sure, with a name; not placed: the days on which it may be. The crew has its own visits alone."""
    placed, loose = visit(DAY), visit(DAY, "")
    sure, open_days = client_feed_visits(anvil(), [placed, loose])
    assert (sure.placed, sure.summary) == (True, "Soil sampling: Home block")
    assert sure.description.splitlines() == [
        "Ned Marlow comes, for about 2 hours and 15 minutes.",
        "Topsoil under pasture: Barn and Ridge",
    ]
    assert (open_days.placed, open_days.summary) == (False, "Days to sample: Home block")
    assert "the last is 10 February 2027" in open_days.description
    both = [(anvil(), placed), (anvil(), loose), (anvil(), visit(DAY, "ruth-aske"))]
    (mine,) = crew_feed_visits("ned-marlow", both)
    assert mine.summary == "Sample Anvil Creek Pastoral, Home block"
    assert mine.location == "Merrow, creek road"
    assert "Call before you come: Jo Tern (manager), +61 3 5550 0111." in mine.description
    assert mine.tasks == ("barn/topsoil-pasture/2027-01-20", "ridge/topsoil-pasture/2027-01-20")


def speaks(client: str, own: str) -> Client:
    """Return the first client, with its language and the practice's."""
    return replace(anvil(), language=client, practice=replace(practice(), language=own))


@pytest.mark.usefixtures("other_words")
def test_a_feed_is_in_the_language_of_whose_calendar_it_is() -> None:
    """The client's people read the client's language, the crew the practice's."""
    placed, loose = visit(DAY), visit(DAY, "")
    names = "Anvil Creek Pastoral Home block Ned Marlow Jo Tern manager Topsoil under pasture Barn Ridge de febrero"
    for one in client_feed_visits(speaks("es", "en-GB"), [placed, loose]):
        assert not_said(f"{one.summary} {one.description}", names) == []
    (english,) = crew_feed_visits("ned-marlow", [(speaks("es", "en-GB"), placed)])
    assert english.description.startswith("About 2 hours and 15 minutes on the farm. Call before you come:")
    (spanish,) = crew_feed_visits("ned-marlow", [(speaks("en-AU", "es"), placed)])
    assert not_said(f"{spanish.summary} {spanish.description}", names) == []


@pytest.mark.usefixtures("other_words")
def test_another_language_keeps_every_event() -> None:
    """The same events, each with new words, which a calendar takes over once; then nothing changes any more."""
    feed, loose = "client/anvil-creek", visit(DAY, "")
    before = next_feed(feed, (), client_feed_visits(speaks("en-AU", "en-GB"), [loose]), NIGHT)
    spanish = client_feed_visits(speaks("es", "en-GB"), [loose])
    after = next_feed(feed, before, spanish, NIGHT + timedelta(days=1))
    assert [(one.uid, one.sequence) for one in after] == [(one.uid, one.sequence + 1) for one in before]
    assert next_feed(feed, after, spanish, NIGHT + timedelta(days=2)) == after
