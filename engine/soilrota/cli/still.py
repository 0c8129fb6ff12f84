"""`soilrota overnight` where nothing changed: over before anything that makes documents is loaded."""

from __future__ import annotations

import sys
from datetime import UTC, datetime
from typing import Any

from soilrota.batch.still import still_night
from soilrota.cli.exit_codes import ExitCode
from soilrota.cli.today import today


def still(chosen: Any) -> int | None:
    """Run the night that the arguments ask for where it has nothing to do; return its exit code, None for any other.

    A log and single clients are left to a night that looks at every client.
    """
    if chosen.log or chosen.only:
        return None
    started = datetime.now(UTC).isoformat(timespec="seconds")
    night = still_night(chosen.book, chosen.out, started, lambda zone: chosen.as_of or today(zone))
    if night is None:
        return None
    if not sys.stderr.isatty():
        sys.stderr.write(night.clients)
    sys.stderr.write(night.problems)
    sys.stdout.write(night.sum.format(day=night.as_of, took=f"{night.took_s:.1f}") + "\n")
    return ExitCode.GOOD
