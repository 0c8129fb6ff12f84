"""`soilrota send`: what waits in the outbox is sent, or shown."""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any

from soilrota.batch.sending import Edge, SendReport, SendRequest, preview_waiting, send_alone
from soilrota.cli.exit_codes import SIGNALLED, ExitCode
from soilrota.cli.progress import Teller
from soilrota.cli.speech import complain, counted, say
from soilrota.delivery.limits import Hold
from soilrota.delivery.values import Entry

_HELD = {
    Hold.NOT_SET_UP: "no mail server is set in practice.yaml, so nothing leaves this machine",
    Hold.STOPPED: "sending is stopped, by 'stopped' in practice.yaml or the file records/stop-sending",
    Hold.QUIET_HOURS: "these are quiet hours",
    Hold.CAP: "the cap of a night is reached",
    Hold.ENDED: "the command was asked to end",
    Hold.SERVER: "the mail server takes nothing",
}


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


def report_lines(report: SendReport) -> Iterator[str]:
    """Yield in lines what became of the messages: each that somebody must look at, then the sum."""
    for entry in (*report.refused, *report.given_up, *report.put_off):
        yield _line(entry)
    for entry in report.unsure:
        yield f"{_line(entry)}. Ask whether it arrived; then send --arrived {entry.id}, or send --again {entry.id}"
    sums = [(len(report.sent), "sent"), (len(report.put_off), "put off"), (len(report.refused), "refused")]
    sums += [(len(report.given_up), "given up"), (len(report.unsure), "unsure")]
    told = [f"{number} {what}" for number, what in sums if number] or ["nothing sent"]
    to = f", all to {report.test_address}" if report.test_address and report.sent else ""
    yield f"{', '.join(told)}{to}; {counted(report.waiting, 'message waits', 'messages wait')}"
    if report.held and report.due:
        yield f"{counted(report.due, 'message', 'messages')} not tried: {_HELD[report.held]}"


def _line(entry: Entry) -> str:
    """Return a message on one line."""
    return f"{entry.id} to {entry.address}, '{entry.subject}': {entry.state}, {entry.answer}"
