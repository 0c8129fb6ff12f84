"""`soilrota overnight`: one night, told on standard error, summed up on standard output."""

from __future__ import annotations

import os
import sys
import time
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from soilrota.batch.edge import Edge
from soilrota.batch.intake import Clock
from soilrota.batch.night import NightRequest, run_night
from soilrota.batch.values import NightReport, Outcome
from soilrota.cli.exit_codes import SIGNALLED, TRACEBACK, ExitCode
from soilrota.cli.log_lines import LogLines
from soilrota.cli.progress import Teller
from soilrota.cli.speech import complain, counted, say, say_problems
from soilrota.cli.today import today


def overnight(chosen: Any) -> int:
    """Run the night that the arguments ask for, and return the exit code."""
    request = NightRequest(
        root=chosen.book,
        out=chosen.out,
        started=datetime.now(UTC).isoformat(timespec="seconds"),
        as_of=chosen.as_of,
        only=tuple(chosen.only),
        jobs=chosen.jobs or len(os.sched_getaffinity(0)),
        clock=Clock(time.time, time.sleep),
    )
    log = LogLines(chosen.log)
    try:
        with Teller(log) as teller:
            edge = Edge(lambda: datetime.now(UTC), os.environ, lambda: teller.asked_to_end() is not None)
            night = run_night(replace(request, edge=edge), today, teller)
        code = _exit_code(night)
        log.add("end", as_of=night.as_of, sum=_sum(night), faults=night.faults, exit_code=int(code))
    finally:
        log.close()
    _say_problems(night)
    say(_sum(night))
    return code


def _say_problems(night: NightReport) -> None:
    """Print the problems of the night, those of the book first, then client by client."""
    say_problems(night.problems, sys.stderr)
    for entry in night.entries:
        if not (entry.problems or entry.outcome is Outcome.FAILED):
            continue
        say(f"\n{entry.client}" + (f": {entry.reason}" if entry.reason else ""), sys.stderr)
        say_problems(entry.problems, sys.stderr, before="  ")
        if entry.trace and os.environ.get(TRACEBACK):
            say(entry.trace, sys.stderr)
    for fault in night.faults:
        complain(fault)


def _sum(night: NightReport) -> str:
    """Return the night on one line."""
    counts = (f"{night.count(outcome)} {outcome}" for outcome in Outcome if night.count(outcome))
    clients = counted(len(night.entries), "client")
    return f"as of {night.as_of}: {clients}: {', '.join(counts)}; {_intake(night)}{night.took_s:.1f} s"


def _intake(night: NightReport) -> str:
    """Return in words what came in, and what waits; empty where there is neither."""
    if night.intake is None:
        return ""
    fresh = [entry for entry in night.intake.files if entry.fresh and not entry.again]
    taken = sum(entry.taken for entry in night.intake.files)
    waits = sum(len(record.reasons) or 1 for record in night.intake.records if record.is_open)
    parts = [f"{counted(len(fresh), 'file')} came in"] if fresh else []
    parts += [f"{counted(taken, 'row')} accepted"] if fresh or taken else []
    parts += [f"{counted(waits, 'row')} set aside"] if waits else []
    return f"{', '.join(parts)}; " if parts else ""


def _exit_code(night: NightReport) -> int:
    """Return the exit code that tells the truth about the night."""
    if night.stopped_by is not None:
        return SIGNALLED + night.stopped_by
    good = night.count(Outcome.MADE) + night.count(Outcome.UNCHANGED)
    return ExitCode.GOOD if good == len(night.entries) and not night.faults else ExitCode.SOME_PROBLEMS
