"""Visits in words."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from soilrota.documents import programme_view
from soilrota.documents.visits_view import VisitsView, time_words
from soilrota.model.client import Client
from soilrota.timing import visits_of
from tests.documents.made import answers, example


def visits(client_id: str, farm: int = 0, client: Client | None = None) -> VisitsView:
    """Return the visits of a farm of an example client, or of another."""
    client = client or example(client_id)
    tasks, windows = answers(client)
    found = programme_view(client, tasks, windows, visits_of(client, windows)).farms[farm].visits
    assert found is not None
    return found


def test_two_visits_say_why() -> None:
    """The zones that share no day are named with their windows, and what fewer or more would mean."""
    shown = visits("anvil-creek")
    assert len(shown.rows) == 2
    text = " ".join(shown.notes)
    assert "2 visits are needed, because no two of them share a day: " in text
    assert "A North flat (9 March to 31 March 2027)" in text
    assert "With one visit fewer" in text
    assert "can share a visit, up to 31 March 2027 at the latest" in text


def test_one_visit_needs_no_reason() -> None:
    """A farm whose zones share a day has a row and no witness."""
    shown = visits("anvil-creek", farm=1)
    assert len(shown.rows) == 1
    assert shown.rows[0].zones == "A Top of the hill, B North slope and C Saddle"
    assert not any("are needed" in note for note in shown.notes)


def test_a_best_day_that_has_passed_makes_the_visit_urgent() -> None:
    """'As soon as possible' instead of a day that would be another tomorrow."""
    assert visits("glen-tarn").rows[0].day == "as soon as possible"


def test_a_farm_without_a_task_that_wants_a_day_has_no_visits() -> None:
    """Everything settled: no table."""
    client = example("ellery-orchard")
    tasks, windows = answers(client)
    assert programme_view(client, tasks, windows, visits_of(client, windows)).farms[0].visits is None


@pytest.mark.parametrize(
    ("minutes", "words"),
    [(1, "about half an hour"), (60, "about 1 hour"), (215, "about 3 1/2 hours"), (240, "about 4 hours")],
)
def test_time_is_told_to_the_half_hour(minutes: int, words: str) -> None:
    """Nobody knows it better."""
    assert time_words(minutes) == words


def test_a_zone_keeps_its_brackets_where_its_protocols_share_a_visit() -> None:
    """The protocol is left out of its name, and nothing else."""
    client = example("anvil-creek")
    farms = tuple(
        replace(farm, zones=tuple(replace(zone, name=f"{zone.name} (wet)") for zone in farm.zones))
        for farm in client.farms
    )
    notes = " ".join(visits("anvil-creek", client=replace(client, farms=farms)).notes)
    assert re.search(r"On \w [\w ]+ \(wet\), .* can share a visit", notes)
