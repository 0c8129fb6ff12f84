"""How fast windows are: against the day-by-day oracle in one run, and against the number of records.

Prints ratios; nothing here is a promise in seconds. Run it from the top of the checkout:
`sh .ci/with python tests/benchmarks/bench_windows.py`.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from random import Random
from time import perf_counter

ROOT = Path(__file__).resolve().parents[2]
TASKS = 400
ROUNDS = 5


def best_time(work: Callable[[], object]) -> float:
    """Return the shortest time [s] of a few rounds."""
    times = []
    for _ in range(ROUNDS):
        start = perf_counter()
        work()
        times.append(perf_counter() - start)
    return min(times)


def against_the_oracle() -> tuple[float, float]:
    """Return the time of the engine and of the oracle for the same random tasks [ms a task]."""
    from soilrota.timing import window_of
    from tests.timing.making import random_practical_task
    from tests.timing.oracle import expect

    tasks = [random_practical_task(Random(seed)) for seed in range(TASKS)]
    engine = best_time(lambda: [window_of(task, as_of) for task, as_of in tasks])
    oracle = best_time(lambda: [expect(task, as_of) for task, as_of in tasks])
    return engine * 1000 / TASKS, oracle * 1000 / TASKS


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


def main() -> None:
    """Print the comparison and the growth."""
    engine, oracle = against_the_oracle()
    print(
        f"random tasks: engine {engine:.3f} ms, day by day {oracle:.3f} ms a task: {oracle / engine:.0f} times faster"
    )
    print("applications in the log, ms a window, microseconds a record:")
    for number, time in by_number_of_records():
        print(f"  {number:>6}  {time:8.3f}  {1000 * time / number:7.2f}")
    print("length of the season, ms a window:")
    for name, time in by_length_of_season():
        print(f"  {name:>8}  {time:8.3f}")


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    main()
