"""A night run within the test's own process, watched."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from soilrota.batch.night import NightRequest, run_night
from soilrota.batch.values import Entry, NightReport
from tests.batch.jobs import QUICK

DAY = date(2027, 2, 15)


@dataclass
class Watched:
    """Hears of every client; asks the night to end after so many, where a number is given."""

    told: list[Entry] = field(default_factory=list)
    end_after: int | None = None
    clients: int = 0

    def begin(self, clients: int) -> None:
        """Hear how many there are."""
        self.clients = clients

    def done(self, entry: Entry) -> None:
        """Hear of one."""
        self.told.append(entry)

    def asked_to_end(self) -> int | None:
        """Ask for the end with SIGTERM after `end_after` clients."""
        return 15 if self.end_after is not None and len(self.told) >= self.end_after else None


def today(time_zone: str) -> date:
    """Return the day on which the tests' nights are when none is named."""
    assert time_zone == "Australia/Melbourne"
    return DAY


def one_night(
    book: Path,
    out: Path,
    job: str = QUICK,
    as_of: date | None = DAY,
    only: tuple[str, ...] = (),
    *,
    jobs: int = 2,
    watcher: Watched | None = None,
    asked: Callable[[str], date] = today,
) -> NightReport:
    """Run a night with a job of the tests."""
    request = NightRequest(book, out, "2027-02-15T20:00:00+00:00", as_of, only, jobs, job)
    return run_night(request, asked, watcher or Watched())


def outcomes_of(night: NightReport) -> dict[str, str]:
    """Return the outcome of every client."""
    return {entry.client: str(entry.outcome) for entry in night.entries}
