"""A year of nights over the example book: no answer contradicts the night before; nothing moves without a reason."""

from __future__ import annotations

from collections import defaultdict
from datetime import date, timedelta

import pytest

from soilrota.model.windows import Rule, State, Task, Window
from soilrota.timing import same_but_for_passed_days, tasks_of, window_of
from tests.documents.made import CLIENTS, example

FIRST, LAST = date(2026, 6, 1), date(2027, 5, 31)
ONE_DAY = timedelta(days=1)
#: After a state only these may follow, one night later.
MAY_FOLLOW = {
    State.OPENS_LATER: {State.OPEN_TODAY, State.LAST_DAYS, State.NO_DAY_LEFT, State.LATE_FOR_DECISION, State.BAGS_OUT},
    State.OPEN_TODAY: {State.LAST_DAYS, State.OPENS_LATER, State.NO_DAY_LEFT, State.LATE_FOR_DECISION, State.BAGS_OUT},
    State.LAST_DAYS: {State.NO_DAY_LEFT, State.LATE_FOR_DECISION, State.OPENS_LATER, State.OVERDUE, State.BAGS_OUT},
    State.LATE_FOR_DECISION: {State.NO_DAY_LEFT, State.OVERDUE, State.BAGS_OUT},
    State.NO_DAY_LEFT: {State.OVERDUE, State.OPENS_LATER, State.BAGS_OUT},
    State.OVERDUE: {State.BAGS_OUT},
    State.BAGS_OUT: {State.RESULTS_IN, State.OPENS_LATER, State.OPEN_TODAY},
    State.RESULTS_IN: {State.OPENS_LATER, State.OPEN_TODAY, State.LAST_DAYS, State.NO_DAY_LEFT},
    State.NOT_KNOWN: set(),
}


def said(window: Window) -> set[tuple[object, ...]]:
    """Return what the reasons say, as something that can be compared."""
    return {(reason.rule, reason.place, *sorted(reason.facts.items(), key=str)) for reason in window.reasons}


def check_pair(before: Window, after: Window, night: date) -> None:
    """Hold one night's answer against that of the night before."""
    if night <= before.holds_until:
        assert same_but_for_passed_days(before, after, night)
        return
    if after.state is not before.state:
        assert after.state in MAY_FOLLOW[before.state], f"{before.state} to {after.state}"
    moved = after.preferred != before.preferred or after.season_open != before.season_open
    passed = before.preferred is not None and before.preferred < night
    assert not moved or passed or said(after) != said(before)
    if after.state is State.BAGS_OUT and before.state is not State.BAGS_OUT:
        sampled = next(reason for reason in after.reasons if reason.rule is Rule.SAMPLED)
        assert sampled.facts["day"] == night
    if after.overdue_months is not None and before.overdue_months is None:
        assert before.season.span.last == night - ONE_DAY


def year_of(task: Task) -> list[State]:
    """Return the states of a task through the year, each held against the night before."""
    states: list[State] = []
    before, night = window_of(task, FIRST), FIRST
    while night < LAST:
        states.append(before.state)
        night += ONE_DAY
        after = window_of(task, night)
        check_pair(before, after, night)
        before = after
    return states


@pytest.mark.parametrize("name", CLIENTS)
def test_no_night_contradicts_the_one_before(name: str) -> None:
    """Every task of the client, night by night for a year."""
    for task in tasks_of(example(name)):
        year_of(task)


def test_the_year_goes_through_its_states() -> None:
    """Sampled, bags out, results in, open again: the seasons of a task follow each other."""
    tasks = {task.key.zone: task for task in tasks_of(example("brolga-plains")) if task.key.protocol == "topsoil-crop"}
    runs: defaultdict[str, list[State]] = defaultdict(list)
    for zone in ("one", "sandhill"):
        for state in year_of(tasks[zone]):
            if not runs[zone] or runs[zone][-1] is not state:
                runs[zone].append(state)
    assert runs["one"] == [
        State.RESULTS_IN,
        State.OPENS_LATER,
        State.OPEN_TODAY,
        State.BAGS_OUT,
        State.RESULTS_IN,
    ]
    assert runs["sandhill"][-3:] == [State.LAST_DAYS, State.NO_DAY_LEFT, State.OVERDUE]
