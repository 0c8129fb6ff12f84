"""`soilrota intake`: the inbox taken in, with a short report."""

from __future__ import annotations

import os
import time
from datetime import UTC, datetime
from typing import Any

from soilrota.batch.intake import AloneRequest, Clock, run_intake
from soilrota.cli.exit_codes import SIGNALLED, ExitCode
from soilrota.cli.progress import Teller
from soilrota.cli.speech import say
from soilrota.cli.today import today


def intake(chosen: Any) -> int:
    """Take in what the arguments ask for, print the report, and return the exit code."""
    request = AloneRequest(
        root=chosen.book,
        out=chosen.out,
        started=datetime.now(UTC).isoformat(timespec="seconds"),
        as_of=chosen.as_of,
        jobs=chosen.jobs or len(os.sched_getaffinity(0)),
    )
    with Teller() as teller:
        clock = Clock(time.time, time.sleep)
        report, words = run_intake(request, today, clock, lambda: teller.asked_to_end() is not None)
        asked = teller.asked_to_end()
    say(words.rstrip())
    if asked is not None:
        return SIGNALLED + asked
    waits = report.faults or any(record.is_open for record in report.records)
    return ExitCode.SOME_PROBLEMS if waits else ExitCode.GOOD
