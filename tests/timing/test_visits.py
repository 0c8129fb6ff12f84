"""Visits of one farm: by hand, and against every choice of days."""

from __future__ import annotations

from datetime import date
from itertools import combinations
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.model.visits import OneFewerVisit, OneMoreVisit, TaskToVisit
from soilrota.model.windows import TaskKey
from soilrota.timing.visits import plan_visits
from tests.timing.making import span
from tests.timing.visiting import FIGURES, a_task_to_visit, february


def key(zone: str) -> TaskKey:
    """Return the key of a task."""
    return TaskKey("home", zone, "topsoil")


def test_one_visit_where_all_share_a_day() -> None:
    """Two zones, one day between their targets; what a second visit would bring is said."""
    plan = plan_visits([a_task_to_visit("b", 1, 20, target=10), a_task_to_visit("a", 5, 28, target=14)], FIGURES)
    (visit,) = plan.visits
    assert (visit.day, visit.tasks, visit.late) == (february(10), (key("a"), key("b")), ())
    assert visit.minutes == 20 + 2 * (10 + 15 + 25)
    assert (plan.penalty, plan.witness, plan.proven) == (4, (), True)
    assert plan.one_more == OneMoreVisit((february(10), february(14)), 4)
    assert plan.one_fewer == OneFewerVisit((), (key("a"), key("b")))


def test_two_visits_say_why_and_what_one_would_miss() -> None:
    """Windows that share no day need two visits; with one, the single task goes without."""
    tasks = [a_task_to_visit("a", 1, 5), a_task_to_visit("b", 3, 7), a_task_to_visit("c", 10, 12)]
    plan = plan_visits(tasks, FIGURES)
    assert [visit.day for visit in plan.visits] == [february(3), february(10)]
    assert plan.witness == (
        (key("a"), (span("2027-02-01", "2027-02-05"),)),
        (key("c"), (span("2027-02-10", "2027-02-12"),)),
    )
    assert plan.witness_apart
    assert plan.one_fewer == OneFewerVisit((february(3),), (key("c"),))
    assert plan.one_more == OneMoreVisit((february(1), february(3), february(10)), 2)


def test_more_visits_bring_nothing_where_all_stand_on_their_best_day() -> None:
    """The gain of one visit more is nothing, and no other days are named."""
    plan = plan_visits([a_task_to_visit("a", 1, 5, target=3), a_task_to_visit("b", 3, 9, target=3)], FIGURES)
    assert plan.one_more == OneMoreVisit((february(3),), 0)


def test_late_days_and_tasks_without_a_day() -> None:
    """A task whose open days are all late is visited and listed; one without a day is listed."""
    tasks = [a_task_to_visit("a", 8, 9, last_useful=5), a_task_to_visit("b", 1, 9, last_useful=8), a_task_to_visit("c")]
    plan = plan_visits(tasks, FIGURES)
    assert [(visit.day, visit.late) for visit in plan.visits] == [(february(8), (key("a"),))]
    assert plan.without_day == (key("c"),)


def test_nothing_to_visit() -> None:
    """Without tasks there are no visits, and nothing to say of more or fewer."""
    plan = plan_visits([], FIGURES)
    assert (plan.visits, plan.one_more, plan.one_fewer, plan.proven) == ((), None, None, True)


numbers = st.integers(1, 9)
some_days = st.lists(st.tuples(numbers, numbers).map(sorted), min_size=1, max_size=2).map(
    lambda spans: [one for pair in spans for one in pair]
)
farms = st.lists(st.tuples(some_days, numbers, st.none() | numbers), min_size=1, max_size=5)


def _tasks(farm: list[tuple[list[int], int, int | None]]) -> list[TaskToVisit]:
    """Return the tasks of a drawn farm."""
    return [
        a_task_to_visit(f"z{number}", *days, target=target, last_useful=last)
        for number, (days, target, last) in enumerate(farm)
    ]


def _usable(task: TaskToVisit) -> list[date]:
    """Return the days of a task: those in time, or all where none is."""
    days = [february(one) for one in range(1, 10) if any(february(one) in spans for spans in task.spans)]
    return [day for day in days if task.last_useful is None or day <= task.last_useful] or days


def _judge(tasks: list[TaskToVisit], days: tuple[date, ...]) -> tuple[int, int]:
    """Return the tasks that miss out and the penalty of the others."""
    choices = [[abs((day - task.target).days) for day in days if day in _usable(task)] for task in tasks]
    return sum(not found for found in choices), sum(min(found) for found in choices if found)


def _sum(days: tuple[date, ...]) -> int:
    """Return the day numbers added up: how early the days are on the whole."""
    return sum(day.day for day in days)


def _best(tasks: list[TaskToVisit], most: int) -> tuple[int, int, int]:
    """Return missing tasks, penalty and earliness of the best choice of at most so many days."""
    sets = [days for size in range(most + 1) for days in combinations([february(one) for one in range(1, 10)], size)]
    return min((*_judge(tasks, days), _sum(days)) for days in sets)


@settings(max_examples=60, deadline=None)
@given(farms, st.integers(0, 99))
def test_against_every_choice_of_days(farm: list[tuple[list[int], int, int | None]], seed: int) -> None:
    """Number, penalty, days, one more and one fewer are those of trying every choice; in any order of the tasks."""
    tasks = _tasks(farm)
    fewest = next(most for most in range(1, 6) if _best(tasks, most)[0] == 0)
    exactly = [
        days for days in combinations([february(one) for one in range(1, 10)], fewest) if not _judge(tasks, days)[0]
    ]
    penalty, earliest = min((_judge(tasks, days)[1], _sum(days)) for days in exactly)
    shuffled = Random(seed).sample(tasks, len(tasks))
    plan = plan_visits(shuffled, FIGURES)
    assert plan == plan_visits(tasks, FIGURES)
    assert plan.proven
    days = tuple(visit.day for visit in plan.visits)
    assert (len(days), plan.penalty, _sum(days)) == (fewest, penalty, earliest)
    assert _judge(tasks, days) == (0, penalty)
    assert sorted((name for visit in plan.visits for name in visit.tasks), key=str) == [task.key for task in tasks]
    assert plan.one_more is not None
    assert plan.one_more.gain == penalty - _best(tasks, fewest + 1)[1]
    assert plan.one_fewer is not None
    missing, rest, left = _best(tasks, fewest - 1)
    assert len(plan.one_fewer.missed) == missing
    assert _sum(plan.one_fewer.days) == left
    assert _judge(tasks, plan.one_fewer.days) == (missing, rest)


@settings(max_examples=40, deadline=None)
@given(farms)
def test_the_witness_needs_so_many_visits(farm: list[tuple[list[int], int, int | None]]) -> None:
    """The tasks that are named need as many visits by themselves, and no two share a day where that is said."""
    plan = plan_visits(_tasks(farm), FIGURES)
    named = {name for name, _ in plan.witness}
    tasks = [task for task in _tasks(farm) if task.key in named]
    if len(plan.visits) == 1:
        assert not named
        return
    assert _best(tasks, len(plan.visits) - 1)[0] > 0
    if plan.witness_apart:
        assert all(not set(_usable(one)) & set(_usable(two)) for one, two in combinations(tasks, 2))
