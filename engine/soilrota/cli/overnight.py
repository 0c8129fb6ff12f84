"""`soilrota overnight`: one night, told on standard error, summed up on standard output."""

from __future__ import annotations

import io
import os
import sys
import time
from contextlib import suppress
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any, TextIO

from soilrota.batch.edge import Edge
from soilrota.batch.intake import Clock
from soilrota.batch.night import NightRequest, run_night
from soilrota.batch.run_report import run_report
from soilrota.batch.still import UnseenError, keep_still, look, settled_look
from soilrota.batch.values import NightReport, Outcome
from soilrota.cli.exit_codes import SIGNALLED, TRACEBACK, ExitCode
from soilrota.cli.log_lines import LogLines
from soilrota.cli.progress import Teller, line_of
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
    log, seen = LogLines(chosen.log), _look(chosen)
    try:
        with Teller(log) as teller:
            edge = Edge(lambda: datetime.now(UTC), os.environ, lambda: teller.asked_to_end() is not None)
            night = run_night(replace(request, edge=edge), today, teller)
        code = _exit_code(night)
        told = _sum(night, str(night.as_of), f"{night.took_s:.1f}")
        log.add("end", as_of=night.as_of, sum=told, faults=night.faults, exit_code=int(code))
    finally:
        log.close()
    _say_problems(night, sys.stderr)
    say(told)
    if seen and night.still_until is not None:
        _keep_still(request, night, seen)
    return code


def _look(chosen: Any) -> str:
    """Return what stands for the state of all files before the night; empty where nobody will ask for it."""
    with suppress(OSError, UnseenError):
        return "" if chosen.only else look(chosen.book, chosen.out)
    return ""


def _keep_still(request: NightRequest, night: NightReport, seen: str) -> None:
    """Keep what a night saw and said that had nothing to do, so that the next need not look again.

    Nothing is kept where a file changed under the night, or it cannot be told whether one did.
    """
    problems = io.StringIO()
    _say_problems(night, problems)
    untried = tuple(replace(entry, tries=0, took_s=0.0) for entry in night.entries)
    kept = {
        "look": seen,
        "first": str(night.as_of),
        "last": str(night.still_until),
        "time_zone": night.time_zone,
        "clients": "".join(f"{line_of(entry)}\n" for entry in night.entries),
        "problems": problems.getvalue(),
        "sum": _sum(night, "{day}", "{took}"),
        "report": run_report(replace(night, entries=untried)).decode(),
    }
    with suppress(OSError, UnseenError):
        if settled_look(request.root, request.out, request.clock.wait) == seen:
            keep_still(request.root, request.out, kept)


def _say_problems(night: NightReport, stream: TextIO) -> None:
    """Write the problems of the night, those of the book first, then client by client."""
    say_problems(night.problems, stream)
    for entry in night.entries:
        if not (entry.problems or entry.outcome is Outcome.FAILED):
            continue
        say(f"\n{entry.client}" + (f": {entry.reason}" if entry.reason else ""), stream)
        say_problems(entry.problems, stream, before="  ")
        if entry.trace and os.environ.get(TRACEBACK):
            say(entry.trace, stream)
    for fault in night.faults:
        complain(fault)


def _sum(night: NightReport, day: str, took: str) -> str:
    """Return the night on one line; `day` is its as-of date, `took` how long it took [s]."""
    counts = (f"{night.count(outcome)} {outcome}" for outcome in Outcome if night.count(outcome))
    clients = counted(len(night.entries), "client")
    return f"as of {day}: {clients}: {', '.join(counts)}; {_intake(night)}{took} s"


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
