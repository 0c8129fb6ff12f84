"""One night over a book, as the command runs it: `python -m tests.benchmarks.night.one_night BOOK OUT DAY WORKERS`."""

from __future__ import annotations

import os
import sys
from datetime import date
from pathlib import Path

from soilrota.batch.night import JOB, NightRequest, run_night
from soilrota.batch.values import Entry, Outcome
from tests.benchmarks.night.costs import print_cost


class _Silent:
    """Hears how the night goes on, and says nothing."""

    def begin(self, clients: int) -> None:
        """Hear how many clients there are."""

    def done(self, entry: Entry) -> None:
        """Hear what became of a client."""
        if entry.outcome not in {Outcome.MADE, Outcome.UNCHANGED}:
            print(entry, file=sys.stderr)

    def asked_to_end(self) -> int | None:
        """Never ask for the end."""
        return None


def main() -> int:
    """Run the night; 1 where not everything was made or stood."""
    book, out, day, workers = sys.argv[1:5]
    job = "tests.benchmarks.night.catching:make_client" if "BENCH_CAUGHT" in os.environ else JOB
    request = NightRequest(Path(book), Path(out), "benchmark", date.fromisoformat(day), jobs=int(workers), job=job)
    report = run_night(request, lambda _zone: date.fromisoformat(day), _Silent())
    good = sum(report.count(outcome) for outcome in (Outcome.MADE, Outcome.UNCHANGED))
    print(*report.faults, sep="\n", file=sys.stderr)
    print_cost()
    return int(good < len(report.entries) or bool(report.faults))


if __name__ == "__main__":
    sys.exit(main())
