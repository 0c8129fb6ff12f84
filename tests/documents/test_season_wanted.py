"""Which tasks are said to need somebody, and in which order."""

from __future__ import annotations

from collections import Counter
from datetime import date

from soilrota.documents import SeasonClient, SeasonTask, SeasonView, WantedGroup
from soilrota.documents.season_wanted import MEANINGS, URGENCY, wanted_groups
from soilrota.model.windows import Span, State
from tests.documents.seasons import a_season

OTHER = WantedGroup("Bags that are late", "Ring.", ("one",), count=1)


def test_urgency_names_every_state_once() -> None:
    """No state is forgotten where states are put in order."""
    assert sorted(URGENCY) == sorted(State)


def test_groups_hold_every_task_of_a_pressing_state() -> None:
    """Counted straight from the tasks; what is no task comes first; a quiet state makes no group."""
    season = a_season(400)
    view = SeasonView(season.practice, season.tasks, season.clients, wanted=(OTHER,))
    first, *groups = wanted_groups(view)
    counts = Counter(task.state for task in view.tasks)
    assert first == OTHER
    assert [group.state for group in groups] == [state for state in URGENCY if state in MEANINGS]
    assert all(group.count == counts[group.state] for group in groups if group.state)


def test_a_line_names_client_zones_and_the_last_open_day() -> None:
    """Many zones are cut after four; a zone under two protocols stands once, with the number of tasks."""
    open_ = (Span(date(2027, 2, 1), date(2027, 2, 20)),)
    zones = ("A", "B", "C", "D", "E", "E")
    tasks = tuple(SeasonTask("x", "Home", zone, "P", State.LAST_DAYS, open=open_) for zone in zones)
    (group,) = wanted_groups(SeasonView("", tasks, (SeasonClient("x", "Xan Farm"),)))
    assert group.lines == ("Xan Farm: A, B, C, D and 1 more (6 tasks), until 20 February 2027",)


def test_nothing_pressing_makes_no_group() -> None:
    """A season in which all is done."""
    task = SeasonTask("x", "", "A", "P", State.RESULTS_IN)
    assert wanted_groups(SeasonView("", (task,), (SeasonClient("x", "Xan"),))) == ()
