"""`soilrota overnight` where nothing changed: over before anything that makes documents is loaded."""

from __future__ import annotations

import sys
from datetime import UTC, datetime
from typing import Any

from soilrota.batch.still import Still, still_night
from soilrota.cli.exit_codes import ExitCode
from soilrota.cli.log_lines import LogLines
from soilrota.cli.speech import say
from soilrota.cli.today import today


def still(chosen: Any) -> int | None:
    """Run the night that the arguments ask for where it has nothing to do; return its exit code, None for any other.

    A night over single clients is another one: it looks at those.
    """
    if chosen.only:
        return None
    log = LogLines(chosen.log)
    try:
        started = datetime.now(UTC).isoformat(timespec="seconds")
        night = still_night(chosen.book, chosen.out, started, lambda zone: chosen.as_of or today(zone))
        if night is None:
            return None
        told = night.sum.format(day=night.as_of, took=f"{night.took_s:.1f}")
        _add_to(log, night, told)
    finally:
        log.close()
    if not sys.stderr.isatty():
        sys.stderr.write(night.clients)
    sys.stderr.write(night.problems)
    say(told)
    return ExitCode.GOOD


def _add_to(log: LogLines, night: Still, told: str) -> None:
    """Add to the log what any night adds."""
    clients = [line.partition(": ") for line in night.clients.splitlines()]
    log.add("begin", clients=len(clients))
    for client, _, outcome in clients:
        log.add("client", client=client, outcome=outcome, reason="", errors=0, took_s=0.0)
    log.add("end", as_of=night.as_of, sum=told, faults=(), exit_code=int(ExitCode.GOOD))
