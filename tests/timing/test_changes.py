"""What would change an answer: each change, asked again, gives what it says."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from random import Random

from soilrota.model.applications import Standing
from soilrota.model.changes import Change, ChangeKind
from soilrota.model.windows import Task
from soilrota.timing import changes_of, window_of
from tests.timing.counts import RANDOM_TASKS
from tests.timing.making import a_task, day, random_practical_task, sampled, spread


def test_a_planned_spreading_is_moved_by_the_fewest_days() -> None:
    """Best on 20 February; superphosphate from 15 to 17 February closes it.

    Six days later, from the 21st, the 20th is free. Early enough to be over by the 20th it would lie in the past.
    """
    task = a_task(sampled("2026-02-20", "2026-03-06"), spread("2027-02-15", "2027-02-17", standing="planned"))
    assert window_of(task, day("2027-02-01")).preferred == day("2027-02-14")
    later, dropped = changes_of(task, day("2027-02-01"))
    assert (later.kind, later.days, later.first_day) == (ChangeKind.LATER, 6, day("2027-02-21"))
    assert later.preferred == day("2027-02-20")
    assert dropped.kind is ChangeKind.DROPPED
    assert dropped.preferred == day("2027-02-20")


def test_asked_early_enough_it_may_come_earlier() -> None:
    """On 1 October the spreading may come so early that its three months are over by 20 February."""
    task = a_task(sampled("2026-02-20", "2026-03-06"), spread("2027-02-15", "2027-02-17", standing="planned"))
    earlier = changes_of(task, day("2026-10-01"))[0]
    assert earlier.kind is ChangeKind.EARLIER
    assert earlier.first_day == day("2026-11-18")
    assert earlier.days == (day("2027-02-15") - day("2026-11-18")).days
    assert earlier.opens == day("2027-02-20")


def test_what_was_done_is_only_dropped_and_what_has_no_date_is_dated() -> None:
    """The past cannot be moved; a date can be found."""
    done = a_task(sampled("2026-02-20", "2026-03-06"), spread("2027-01-10"))
    assert [change.kind for change in changes_of(done, day("2027-02-01"))] == [ChangeKind.DROPPED]
    undated = a_task(sampled("2026-02-20", "2026-03-06"), spread("?"))
    assert [change.kind for change in changes_of(undated, day("2027-02-01"))] == [ChangeKind.DATED]


def test_nothing_is_said_where_nothing_would_change() -> None:
    """A spreading that takes days but not the best one changes nothing."""
    task = a_task(sampled("2026-02-20", "2026-03-06"), spread("2027-03-20", standing="planned"))
    assert changes_of(task, day("2027-02-01")) == ()


def asked(task: Task, as_of: date, change: Change, days: int) -> date | None:
    """Return the preferred day that follows when the record of a change moves by so many days, or is dropped."""
    (record,) = (one for one in task.applications if one.application.place == change.place)
    application = record.application
    if change.kind is ChangeKind.DROPPED:
        moved = replace(application, standing=Standing.CANCELLED)
    else:
        shift = timedelta(days=days if change.kind is ChangeKind.LATER else -days)
        first, last = application.first_day, application.last_day
        assert first is not None
        assert last is not None
        moved = replace(application, first_day=first + shift, last_day=last + shift)
    others = tuple(one for one in task.applications if one is not record)
    return window_of(replace(task, applications=(*others, replace(record, application=moved))), as_of).preferred


def test_every_change_of_random_tasks_gives_what_it_says() -> None:
    """Moved by the days named, the window has the preferred day named; by one day less it has not."""
    seen = set()
    for seed in range(RANDOM_TASKS // 5):
        task, as_of = random_practical_task(Random(seed))
        for change in changes_of(task, as_of):
            seen.add(change.kind)
            if change.kind is ChangeKind.DATED:
                continue
            assert asked(task, as_of, change, change.days) == change.preferred, f"seed {seed}"
            if change.days > 1:
                assert asked(task, as_of, change, change.days - 1) != change.preferred, f"seed {seed}"
    assert seen == set(ChangeKind)
