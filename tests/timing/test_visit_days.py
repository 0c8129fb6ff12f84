"""The days of visits: fewest, best, earliest; tasks that need so many."""

from __future__ import annotations

from soilrota.model.visits import TaskToVisit
from soilrota.timing.visit_choices import Choice, away_from_target, choices_of
from soilrota.timing.visit_days import best_days, fewest_visits, total_penalty, witness
from tests.timing.visiting import a_task_to_visit, february


def choices(*tasks: TaskToVisit) -> tuple[Choice, ...]:
    """Return the choices of tasks."""
    return choices_of(tasks, away_from_target)


def test_fewest_visits() -> None:
    """None for nothing, one for a common day, two where there is none."""
    assert fewest_visits(()) == (0, True)
    assert fewest_visits(choices(a_task_to_visit("a", 1, 5), a_task_to_visit("b", 5, 9))) == (1, True)
    assert fewest_visits(choices(a_task_to_visit("a", 1, 4), a_task_to_visit("b", 5, 9))) == (2, True)


def test_best_days_take_the_earliest_of_equal_ones() -> None:
    """Two tasks with a pair of equally good days each: the first day of each."""
    some = choices_of([a_task_to_visit("a", 1, 2, 11, 12), a_task_to_visit("b", 5, 6, 15, 16)], lambda _task, _day: 1)
    chosen = best_days(some, 2)
    assert chosen.days == (february(1), february(5))
    assert (chosen.penalty, chosen.proven) == (2, True)


def test_missing_few_comes_before_a_good_score() -> None:
    """With one day for three tasks, the day of two tasks is taken, however bad."""
    some = choices(
        a_task_to_visit("a", 1, 1, target=1),
        a_task_to_visit("b", 9, 9, target=28),
        a_task_to_visit("c", 9, 9, target=28),
    )
    assert best_days(some, 1, may_miss=True).days == (february(9),)


def test_total_penalty_counts_every_task() -> None:
    """Alike tasks count one by one; those without a usable day do not."""
    some = choices(*(a_task_to_visit(name, 3, 3, target=1) for name in "ab"), a_task_to_visit("c", 9, 9))
    assert total_penalty(some, (february(3),)) == 4


def test_a_witness_of_tasks_that_share_no_day() -> None:
    """Of three tasks, two that share no day."""
    some = choices(a_task_to_visit("a", 1, 3), a_task_to_visit("b", 2, 8), a_task_to_visit("c", 6, 9))
    found, apart = witness(some, 2)
    assert apart
    assert [choice.tasks[0].key.zone for choice in found] == ["a", "c"]


def test_a_witness_of_tasks_that_share_days_two_by_two() -> None:
    """Three tasks, each two of which share a day, but not all three."""
    some = choices(a_task_to_visit("a", 1, 1, 2, 2), a_task_to_visit("b", 2, 2, 9, 9), a_task_to_visit("c", 1, 1, 9, 9))
    found, apart = witness(some, 2)
    assert not apart
    assert [choice.tasks[0].key.zone for choice in found] == ["a", "b", "c"]
