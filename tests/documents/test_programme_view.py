"""The view of a programme: most urgent first, every task in it, nothing that changes with the day alone."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, timedelta

import pytest

from soilrota.documents import Found, programme_view, view_digest
from soilrota.language import phrase, spoken
from soilrota.model.findings import SampleFinding, SampleKey, SampleRule, Weight
from soilrota.model.windows import State
from soilrota.problems import Place, Problem, Severity
from tests.documents.made import AS_OF, BOOK, CLIENTS, answers, example, view


@pytest.mark.parametrize("name", CLIENTS)
def test_every_task_stands_on_the_first_page_and_in_its_zone(name: str) -> None:
    """The table, the strip and the zones show the same tasks."""
    client = example(name)
    tasks, _ = answers(client)
    shown = view(client)
    assert len(shown.rows) == len(tasks)
    assert sum(len(zone.tasks) for farm in shown.farms for zone in farm.zones) == len(tasks)
    assert len(shown.strips) == (1 if tasks else 0)


@pytest.mark.parametrize("name", CLIENTS)
def test_the_day_alone_changes_nothing(name: str) -> None:
    """While the answers hold, tomorrow's view is today's, so nothing is rendered again."""
    client = example(name)
    _, windows = answers(client)
    until = min(window.holds_until for window in windows)
    for day in (AS_OF + timedelta(days=1), until):
        if day <= until:
            assert view(client, day) == view(client)


def test_the_most_urgent_stands_first() -> None:
    """Overdue, not known and closed zones come before those that are open or settled."""
    assert [row.state for row in view(example("dune-end-sheep")).rows][:2] == ["Overdue", "Overdue"]
    assert view(example("dune-end-sheep")).rows[0].state_note == "by 10 months"
    assert [row.state for row in view(example("cobb-hill-dairy")).rows][:2] == ["Not known", "No day left this season"]
    assert view(example("anvil-creek")).rows[-1].state == "Taken, bags at the laboratory"


def test_codes_are_never_shown() -> None:
    """Ids, states and classes are in words."""
    for name in CLIENTS:
        client = example(name)
        said = " ".join(
            words
            for farm in view(client).farms
            for zone in farm.zones
            for task in zone.tasks
            for words in (*task.why, *task.blocks, *task.ways_out, task.state, task.window, task.best)
        )
        for code in ("mineral-fertiliser", "other-amendment", "open-today", ".colwell", "topsoil-", "None", "_"):
            assert code not in said


def test_a_reason_given_is_printed_with_the_window() -> None:
    """An override's reason stands wherever its window stands."""
    farm = view(example("ellery-orchard")).farms[0]
    new = next(zone for zone in farm.zones if zone.name == "New planting")
    assert any("Reason given: Calcium nitrate" in words for words in new.tasks[0].blocks) == any(
        reason.rule == "gap-override" for reason in answers(example("ellery-orchard"))[1][3].reasons
    )


def test_a_closed_season_has_its_ways_out() -> None:
    """Where no day is left, what can be done is listed with what it costs."""
    farm = view(example("brolga-plains")).farms[0]
    two = next(zone for zone in farm.zones if zone.name == "Paddock two")
    assert two.tasks[0].state == "No day left this season"
    assert any(words.startswith("Wait for the next season") for words in two.tasks[0].ways_out)
    assert any("outside the season" in words for words in two.tasks[0].ways_out)


def test_warnings_stand_at_their_zone_and_nowhere_else() -> None:
    """A mixed zone says so in its own part."""
    shown = view(example("anvil-creek"))
    warned = {zone.name: zone.warnings for farm in shown.farms for zone in farm.zones if zone.warnings}
    assert set(warned) == {"North flat", "Saddle"}
    assert shown.warnings == ()
    assert len(view(example("cobb-hill-dairy")).warnings) == 2


def test_a_client_without_protocols_has_nothing_due() -> None:
    """No task: no table, no strip, and still a document."""
    client = example("juniper-start")
    shown = programme_view(client, (), ()) if not client.farms else None
    assert shown is None
    bare = replace(client, farms=tuple(replace(farm, zones=()) for farm in client.farms))
    assert programme_view(bare, (), ()).rows == ()


def test_digests_follow_what_is_shown() -> None:
    """The same view has the same digest; another day with another answer has another one."""
    client = example("juniper-start")
    assert view_digest(view(client), BOOK) == view_digest(view(client, date(2027, 2, 16)), BOOK)
    later = view(client, date(2027, 4, 15))
    assert later.rows[0].state != view(client).rows[0].state
    assert view_digest(later, BOOK) != view_digest(view(client), BOOK)


def test_every_state_has_words_and_a_mark() -> None:
    """No state is shown by its code, and each has a shape of its own or shares it with its kin."""
    from soilrota.documents.marks import state_mark
    from soilrota.documents.words import MARKS, STATES

    assert set(STATES) == set(MARKS) == set(State)
    assert all(state_mark(state).startswith("<svg") for state in State)


def test_findings_stand_with_the_samples_that_are_shown() -> None:
    """What was found about the last sampling is said in its task's part; of an older sample nothing is."""
    client = example("anvil-creek")
    tasks, windows = answers(client)
    window = next(one for one in windows if one.last_sampling is not None)
    assert window.last_sampling is not None
    key = SampleKey(window.key.farm, window.key.zone, window.key.protocol, 0, 10, window.last_sampling.day)
    closed = SampleFinding(key, SampleRule.CLOSED_DAY, Weight.NOTE, {"reason": "Lambing"})
    older = replace(closed, sample=replace(key, day=date(1999, 1, 1)))
    shown = programme_view(client, tasks, windows, found=Found(samples=(closed, older)))
    said = [words for farm in shown.farms for zone in farm.zones for task in zone.tasks for words in task.findings]
    assert len(said) == 1
    assert said[0].endswith("Reason given: Lambing.")
    assert not any(task.findings for farm in view(client).farms for zone in farm.zones for task in zone.tasks)


def test_a_sample_that_no_task_asked_for_is_said_on_the_first_page() -> None:
    """It has no task's part to stand in."""
    client = example("anvil-creek")
    tasks, windows = answers(client)
    stray = SampleFinding(
        SampleKey("home", "ridge", "deep-nitrogen", 0, 10, date(2027, 1, 21)), SampleRule.NOT_PLANNED, Weight.NOTE
    )
    shown = programme_view(client, tasks, windows, found=Found(samples=(stray,)))
    assert shown.warnings[:-1] == view(client).warnings
    assert "About the sample of 21 January 2027: the zone is not sampled under" in shown.warnings[-1]


def test_a_programme_is_in_its_clients_language() -> None:
    """Days are joined in it, numbers take its comma, and nothing is spoken in it afterwards."""
    english = example("anvil-creek")
    shown = view(replace(english, language="es"))
    assert any("de enero a" in row.window for row in shown.rows)
    facts = " ".join(zone.facts for farm in shown.farms for zone in farm.zones)
    assert re.search(r"\d,\d ha", facts)
    assert not re.search(r"\d[.]\d", facts)
    assert spoken() == "en-GB"


def test_a_warning_of_the_book_is_said_again() -> None:
    """Its parts come from the book's rules and begin with a capital letter."""
    place = Problem(
        Severity.WARNING, "odd", Place("x.yaml"), phrase("{zone} is odd", zone="hill"), "", phrase("look at it")
    )
    shown = view(replace(example("anvil-creek"), warnings=(place,)))
    assert shown.warnings[0] == "Hill is odd. Look at it."
