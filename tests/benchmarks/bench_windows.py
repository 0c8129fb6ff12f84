"""How fast windows are: against the day-by-day oracle in one run, and against the number of records.

Prints ratios; nothing here is a promise in seconds. Run it from the top of the checkout:
`sh .ci/with python tests/benchmarks/bench_windows.py`.

The first ratio is of 400 tasks asked again and again, so that what tasks share (calendars, laboratories, weather) is
known already, as it is in a night. The second is of many tasks asked once each, all of them with calendars,
laboratories and weather of their own; the oracle is asked about some of them, with `--long` about every one.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from random import Random
from time import process_time
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from soilrota.model.windows import Task

ROOT = Path(__file__).resolve().parents[2]
TASKS = 400
ROUNDS = 5
#: Tasks asked once each: how many there are, drawn and timed so many at a time.
DISTINCT = 100_000
AT_A_TIME = 1_000
#: How many of them the oracle is asked about in a short run.
ORACLE = 2_000
#: After how many of them the engine's time a task is printed.
MARKS = (25_000, 50_000, 100_000)


def once(work: Callable[[], object]) -> float:
    """Return the processor time of one round [s], so that whatever else runs counts for less."""
    start = process_time()
    work()
    return process_time() - start


def best_time(work: Callable[[], object]) -> float:
    """Return the shortest time [s] of a few rounds."""
    return min(once(work) for _ in range(ROUNDS))


def against_the_oracle() -> tuple[float, float]:
    """Return the time of the engine and of the oracle for the same random tasks [ms a task]."""
    from soilrota.timing import window_of
    from tests.timing.making import random_practical_task
    from tests.timing.oracle import expect

    tasks = [random_practical_task(Random(seed)) for seed in range(TASKS)]
    engine = best_time(lambda: [window_of(task, as_of) for task, as_of in tasks])
    oracle = best_time(lambda: [expect(task, as_of) for task, as_of in tasks])
    return engine * 1000 / TASKS, oracle * 1000 / TASKS


def ask_all(ask: Callable[[Task, date], object], tasks: list[tuple[Task, date]]) -> None:
    """Ask each task once and keep no answer, so that the time is not that of looking after many answers."""
    for task, as_of in tasks:
        ask(task, as_of)


def distinct_tasks(asked_of_oracle: int) -> tuple[list[tuple[int, float]], float]:
    """Return the time of the engine [ms a task] up to each mark, and that of the oracle, for tasks asked once each.

    Args:
        asked_of_oracle: how many tasks the oracle is asked about, spread evenly over all.
    """
    from soilrota.timing import window_of
    from tests.timing.making import random_practical_task
    from tests.timing.oracle import expect

    engine, oracle = 0.0, 0.0
    each = asked_of_oracle * AT_A_TIME // DISTINCT
    marks = []
    for first in range(0, DISTINCT, AT_A_TIME):
        # Other seeds than those of `against_the_oracle`, so that no task was seen before.
        tasks = [random_practical_task(Random(1_000_000 + first + number)) for number in range(AT_A_TIME)]
        engine += once(lambda tasks=tasks: ask_all(window_of, tasks))
        oracle += once(lambda tasks=tasks: ask_all(expect, tasks[:each]))
        if first + AT_A_TIME in MARKS:
            marks.append((first + AT_A_TIME, 1000 * engine / (first + AT_A_TIME)))
    return marks, 1000 * oracle / asked_of_oracle


def by_number_of_records() -> list[tuple[int, float]]:
    """Return the time of one window [ms] for logs of 10 to 10,000 applications, nearly all of them long ago."""
    from soilrota.timing import window_of
    from tests.timing.making import a_task, day, sampled, spread

    plain = spread("2026-11-20")
    found = []
    for number in (10, 100, 1000, 10_000):
        days = [date(2000, 1, 1) + timedelta(days=index % 9000) for index in range(number - 1)]
        rows = [replace(plain, application=replace(plain.application, first_day=on, last_day=on)) for on in days]
        task = a_task(sampled("2026-02-20"), plain, *rows)
        found.append((number, 1000 * best_time(lambda task=task: window_of(task, day("2027-01-25")))))
    return found


def by_length_of_season() -> list[tuple[str, float]]:
    """Return the time of one window [ms] for seasons of a day, ten weeks and a year: it does not follow the days."""
    from soilrota.timing import window_of
    from tests.timing.making import a_task, day, sampled, seasons, spread

    found = []
    for name, span in (("1 day", "02-20..02-20"), ("71 days", "01-20..03-31"), ("1 year", "01-01..12-31")):
        task = a_task(sampled("2026-02-20"), spread("2026-11-20"), season=seasons(span))
        found.append((name, 1000 * best_time(lambda task=task: window_of(task, day("2027-01-25")))))
    return found


def compared(engine: float, oracle: float) -> str:
    """Return the times of both [ms a task] in words."""
    return f"engine {engine:.4f} ms, day by day {oracle:.3f} ms a task: {oracle / engine:.1f} times faster"


def main() -> None:
    """Print the comparisons and the growth."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--long", action="store_true", help="ask the oracle about all of the distinct tasks, too")
    is_long = options.parse_args().long
    engine, oracle = against_the_oracle()
    print(f"{TASKS} random tasks, asked again: {compared(engine, oracle)}")
    marks, oracle = distinct_tasks(DISTINCT if is_long else ORACLE)
    print(f"{DISTINCT} random tasks, each asked once: {compared(marks[-1][1], oracle)}")
    print("of those the first so many, engine's ms a task:")
    for number, time in marks:
        print(f"  {number:>6}  {time:8.4f}")
    print("applications in the log, ms a window, microseconds a record:")
    for number, time in by_number_of_records():
        print(f"  {number:>6}  {time:8.3f}  {1000 * time / number:7.2f}")
    print("length of the season, ms a window:")
    for name, time in by_length_of_season():
        print(f"  {name:>8}  {time:8.3f}")


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    main()
