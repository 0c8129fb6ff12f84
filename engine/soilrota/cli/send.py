"""`soilrota send`: what waits in the outbox is sent, or shown."""

from __future__ import annotations

import os
from datetime import UTC, datetime
from typing import Any

from soilrota.batch.edge import Edge
from soilrota.batch.sending import SendRequest, preview_waiting, send_alone
from soilrota.batch.sending_report import report_lines
from soilrota.cli.exit_codes import SIGNALLED, ExitCode
from soilrota.cli.progress import Teller
from soilrota.cli.speech import complain, say


def send(chosen: Any) -> int:
    """Send or show what the arguments ask for, and return the exit code."""
    with Teller() as teller:
        edge = Edge(lambda: datetime.now(UTC), dict(os.environ), lambda: teller.asked_to_end() is not None)
        if chosen.dry_run:
            for line in preview_waiting(chosen.book, edge):
                say(line)
            return ExitCode.GOOD
        started = datetime.now(UTC).isoformat(timespec="seconds")
        report = send_alone(SendRequest(chosen.book, started, tuple(chosen.again), tuple(chosen.arrived)), edge)
        asked = teller.asked_to_end()
    for line in report_lines(report):
        say(line)
    if report.fault:
        complain(report.fault)
    if asked is not None:
        return SIGNALLED + asked
    return ExitCode.GOOD if report.is_good else ExitCode.SOME_PROBLEMS
