"""How many swapped bags are found, and how many reports without a swap are held up: simulated farms of 6 to 40 zones.

Prints a table by years of history and number of analyses: of reports with one swapped pair the share that is set aside
or doubted rightly (both bags and no others), of reports without one the share with any bag set aside or doubted for a
swap. The second half shows farms whose years differ half as much again as the cited figures say. How the farms are made
stands in `tests/results/simulated.py`. Run it from the top of the checkout:
`sh .ci/with python tests/benchmarks/bench_swaps.py`; with `--long` five times as many farms.
"""

from __future__ import annotations

import sys
from pathlib import Path
from time import perf_counter

ROOT = Path(__file__).resolve().parents[2]
ZONES = (6, 12, 20, 40)
YEARS = (2, 3, 4, 6, 8)
ANALYSES = (6, 8, 10)
UNREST = 1.5
FARMS, MANY_FARMS = 40, 200


def shares(years: int, analyses: int, farms: int, unrest: float = 1.0) -> tuple[float, float, float, float]:
    """Return the shares of swaps found (set aside, at least doubted) and of reports without one that were held up."""
    from soilrota.model.result_findings import Grade
    from tests.results.simulated import simulated_farm
    from tests.results.swap_counts import swap_grades

    counts = [0, 0, 0, 0]
    for number in range(farms):
        zones = ZONES[number % len(ZONES)]
        seed = 1000 * years + 100_000 * analyses + number
        swapped = simulated_farm(seed, zones=zones, years=years, analyses=analyses, swap=True, unrest=unrest)
        plain = simulated_farm(-seed, zones=zones, years=years, analyses=analyses, swap=False, unrest=unrest)
        found, false = swap_grades(swapped), swap_grades(plain)
        right = frozenset(found) == swapped.swapped
        counts[0] += right and set(found.values()) == {Grade.SET_ASIDE}
        counts[1] += right
        counts[2] += Grade.SET_ASIDE in false.values()
        counts[3] += bool(false)
    first, second, third, fourth = (count / farms for count in counts)
    return first, second, third, fourth


def main() -> None:
    """Print the tables, and how long a report of 400 bags takes."""
    sys.path.insert(0, str(ROOT))
    farms = MANY_FARMS if "--long" in sys.argv else FARMS
    print(f"farms a line: {farms} with a swap, {farms} without; zones {', '.join(map(str, ZONES))} in turn")
    print("unrest  years  analyses  found: set aside   or doubted   false: set aside   or doubted")
    for unrest in (1.0, UNREST):
        held = []
        for years in YEARS:
            for analyses in ANALYSES:
                found, doubted, false, false_doubted = shares(years, analyses, farms, unrest)
                held.append(false)
                print(
                    f"{unrest:6}  {years:5}  {analyses:8}  {found:16.1%}  {doubted:11.1%}"
                    f"  {false:17.1%}  {false_doubted:11.1%}",
                    flush=True,
                )
        print(f"reports without a swap set aside, over all lines of unrest {unrest}: {sum(held) / len(held):.2%}")
    from soilrota.results import check_results
    from tests.results.simulated import simulated_farm

    big = simulated_farm(1, zones=400, years=4, analyses=10, swap=True)
    started = perf_counter()
    check_results(big.client, big.fresh)
    print(f"all checks of one report of 400 bags, ten analyses each: {perf_counter() - started:.2f} s")


if __name__ == "__main__":
    main()
