"""Days that a task can use, tasks that are alike, days that no plan needs."""

from __future__ import annotations

from datetime import date

from soilrota.model.windows import TaskKey
from soilrota.timing.visit_choices import away_from_target, choices_of, from_table, usable_spans
from tests.timing.making import day, span
from tests.timing.visiting import a_task_to_visit


def test_late_days_are_used_only_where_there_are_no_others() -> None:
    """A day after the last useful one counts only when every open day is late."""
    task = a_task_to_visit("a", 1, 20, last_useful=10)
    assert usable_spans(task) == (span("2027-02-01", "2027-02-10"),)
    late = a_task_to_visit("a", 12, 20, last_useful=10)
    assert usable_spans(late) == (span("2027-02-12", "2027-02-20"),)


def test_alike_tasks_are_put_together() -> None:
    """Tasks with the same days and penalties are one choice."""
    tasks = [a_task_to_visit("a", 1, 5), a_task_to_visit("b", 1, 5), a_task_to_visit("c", 2, 5)]
    assert [[task.key.zone for task in choice.tasks] for choice in choices_of(tasks, away_from_target)] == [
        ["a", "b"],
        ["c"],
    ]


def test_days_worse_for_everyone_are_left_out() -> None:
    """One task alone needs its best day only; of two equal ones the earlier."""
    (choice,) = choices_of([a_task_to_visit("a", 1, 9, target=5)], away_from_target)
    assert choice.penalties == {day("2027-02-05"): 0}
    (even,) = choices_of([a_task_to_visit("a", 1, 9)], lambda _task, _day: 3)
    assert even.penalties == {day("2027-02-01"): 3}


def test_a_day_that_serves_more_tasks_is_kept() -> None:
    """The day that both can use stays, though each has a better one for itself."""
    tasks = [a_task_to_visit("a", 1, 5, target=1), a_task_to_visit("b", 5, 9, target=9)]
    kept = {one for choice in choices_of(tasks, away_from_target) for one in choice.penalties}
    assert kept == {day("2027-02-01"), day("2027-02-05"), day("2027-02-09")}


def test_a_table_of_penalties() -> None:
    """A day in the table counts what the table says, another one its distance."""
    task = a_task_to_visit("a", 1, 9, target=5)
    penalty = from_table({(TaskKey("home", "a", "topsoil"), date(2027, 2, 5)): 7})
    assert (penalty(task, day("2027-02-05")), penalty(task, day("2027-02-07"))) == (7, 2)
