"""Random tasks: the window equals a day-by-day reading of the rules, in any order of records, for as long as it says.

SOILROTA_LONG=1 draws the full count. A failure names the seed of the task.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise
from random import Random

from soilrota.model.windows import Rule, Span, Task, Window
from soilrota.timing import same_but_for_passed_days, window_of
from tests.timing.counts import RANDOM_TASKS
from tests.timing.making import random_practical_task, random_task
from tests.timing.oracle import Expected, Season, Way, expect


def days_of(spans: tuple[Span, ...]) -> list[date]:
    """Return every day of the spans, in their order."""
    return [span.first + timedelta(days=number) for span in spans for number in range(span.days)]


def drawn(seed: int) -> tuple[Task, date]:
    """Return a random task: every second one with work calendar, laboratory, decisions and moisture."""
    return (random_practical_task if seed % 2 else random_task)(Random(seed))


def in_days(window: Window) -> Expected:
    """Return the window written as the oracle writes it."""
    last = window.last_sampling
    return Expected(
        state=str(window.state),
        due=Season(window.due.span.first, window.due.span.last),
        season=Season(window.season.span.first, window.season.span.last),
        season_open=days_of(window.season_open),
        open=days_of(window.open),
        preferred=window.preferred,
        target=window.target,
        anniversary=window.anniversary,
        last_sampling=None if last is None else (last.day, last.reported),
        overdue_months=window.overdue_months,
        closed={(day, place) for span, place in window.closed for day in days_of((span,))},
        waiting=list(window.waiting_analyses),
        ways_out=[
            Way(str(w.kind), tuple(days_of(w.spans)), w.best, w.days_out_of_season, w.months_late, w.places)
            for w in window.ways_out
        ],
        rules={str(reason.rule) for reason in window.reasons},
        workable=days_of(window.workable),
        on_time=days_of(window.on_time),
        decision=window.decision,
    )


def is_tidy(spans: tuple[Span, ...]) -> bool:
    """Return whether spans are sorted, disjoint and not touching."""
    return all(one.last + timedelta(days=1) < next_one.first for one, next_one in pairwise(spans))


def test_windows_equal_a_day_by_day_reading() -> None:
    """Every part of the answer is what the obvious reading of the rules gives."""
    for seed in range(RANDOM_TASKS):
        task, as_of = drawn(seed)
        window = window_of(task, as_of)
        assert in_days(window) == expect(task, as_of), f"seed {seed}, as of {as_of}"
        assert is_tidy(window.season_open), f"seed {seed}"
        assert is_tidy(window.open), f"seed {seed}"


def test_the_order_of_records_changes_nothing() -> None:
    """Records in another order give the same answer, reasons and their order included."""
    for seed in range(RANDOM_TASKS):
        random = Random(-seed - 1)
        task, as_of = drawn(seed)
        shuffled = replace(
            task,
            applications=tuple(random.sample(task.applications, len(task.applications))),
            samplings=tuple(random.sample(task.samplings, len(task.samplings))),
            analysis_waits=task.analysis_waits[::-1],
        )
        assert window_of(shuffled, as_of) == window_of(task, as_of), f"seed {seed}"


def test_an_answer_holds_as_long_as_it_says_and_no_longer() -> None:
    """Until `holds_until` only days pass; on the day after, the answer is another."""
    for seed in range(RANDOM_TASKS):
        random = Random(-seed - 1)
        task, as_of = drawn(seed)
        window = window_of(task, as_of)
        length = (window.holds_until - as_of).days
        assert length >= 0, f"seed {seed}"
        for number in {1, length, *(random.randint(1, max(length, 1)) for _ in range(3))}:
            day = as_of + timedelta(days=number)
            if day <= window.holds_until:
                later = window_of(task, day)
                assert same_but_for_passed_days(window, later, day), f"seed {seed}, as of {as_of}, on {day}"
                assert later.holds_until == window.holds_until, f"seed {seed}, as of {as_of}, on {day}"
                moved = any(reason.rule is Rule.BEST_DAY_PASSED for reason in window.reasons)
                assert later.preferred == window.preferred or (moved and later.preferred == later.on_time[0].first)
        day = window.holds_until + timedelta(days=1)
        assert not same_but_for_passed_days(window, window_of(task, day), day), f"seed {seed}, as of {as_of}, on {day}"


def test_the_random_tasks_reach_every_case() -> None:
    """The draw holds every state, rule and way out that these rules can give: nothing passes by never occurring."""
    windows = [window_of(*drawn(seed)) for seed in range(RANDOM_TASKS)]
    states = {str(window.state) for window in windows}
    assert states >= {"open-today", "opens-later", "last-days", "overdue", "no-day-left", "not-known"}
    assert states >= {"bags-out", "results-in", "late-for-decision"}
    rules = {str(reason.rule) for window in windows for reason in window.reasons}
    assert rules >= {
        "season", "never-sampled", "due-season", "overdue", "sampled", "spread", "spread-planned", "plan-has-passed",
        "spread-undated", "spread-no-zone", "gap-override", "class-does-not-count", "analysis-wait", "anniversary",
        "middle-of-season", "outside-tolerance", "best-day-passed", "leave", "blackout", "worked-days", "holding",
        "decision", "late", "moisture",
    }  # fmt: skip
    ways = {str(way.kind) for window in windows for way in window.ways_out}
    assert ways == {"before-planned", "after-gap", "next-season", "move-planned"}
