"""How good and how fast the field calendar is: a season of 1,000 visits, the solver against the plan it starts from.

Prints ratios and the gap to the bound; nothing here is a promise in seconds. Run it from the top of the checkout:
`sh .ci/with python tests/benchmarks/bench_calendar.py`.
"""

from __future__ import annotations

import sys
from pathlib import Path
from time import perf_counter

ROOT = Path(__file__).resolve().parents[2]
#: Visits, people, longest work of a visit [min]: visits and people grow together; the last season is over-full.
SEASONS = ((125, 1, 160), (250, 2, 160), (500, 4, 160), (1000, 8, 160), (1000, 8, 200), (1000, 8, 300))


def main() -> None:
    """Print one row a season."""
    from soilrota.timing.field_calendar import broken_promises, plan_calendar
    from soilrota.timing.field_calendar.frame import frame_of
    from soilrota.timing.field_calendar.greedy import greedy_plan
    from tests.timing.field_calendar.making import a_season

    print("                                 without a day   days away            driving [h]")
    print(
        "visits people longest  |  greedy solver  bound  |  greedy solver gap  |  greedy solver ratio  |  greedy, all s"
    )
    for number, people, longest in SEASONS:
        inputs = a_season(number, people, seed=7, longest=longest)
        start = perf_counter()
        greedy_plan(frame_of(inputs))
        greedy = perf_counter() - start
        calendar = plan_calendar(inputs)
        whole = perf_counter() - start - greedy
        assert broken_promises(calendar, inputs) == ()
        before, after, proof = calendar.greedy_score, calendar.score, calendar.proof
        print(
            f"{number:6} {people:6} {longest:7}  |  {before.unplaced:6} {after.unplaced:6} "
            f"{proof.bound // proof.unplaced_points:6}  |  {before.points:6} {after.points:6} {proof.gap:4.0%} |"
            f"  {before.travel_minutes / 60:6.0f} {after.travel_minutes / 60:6.0f} "
            f"{after.travel_minutes / before.travel_minutes:5.2f}  |  {greedy:7.2f} {whole:5.1f}",
            flush=True,
        )


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    main()
