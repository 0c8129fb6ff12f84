"""How sending went: for exit codes, for the morning summary, and in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from soilrota.delivery.limits import Hold
from soilrota.delivery.values import Entry

_HELD = {
    Hold.NOT_SET_UP: "no mail server is set in practice.yaml, so nothing leaves this machine",
    Hold.STOPPED: "sending is stopped, by 'stopped' in practice.yaml or the file records/stop-sending",
    Hold.QUIET_HOURS: "these are quiet hours",
    Hold.CAP: "the cap of a night is reached",
    Hold.ENDED: "the command was asked to end",
    Hold.SERVER: "the mail server takes nothing",
    Hold.FAULT: "the outbox cannot be used",
}


@dataclass(frozen=True, slots=True)
class SendReport:
    """How sending went.

    Attributes:
        sent, put_off, refused, given_up: what became of messages in this round.
        unsure: every message of which nobody knows whether it went, of earlier rounds too.
        waiting: how many messages wait after it [-].
        due: how many of them could have gone and did not [-].
        held: why those did not; None where all were tried.
        fault: what is wrong with server, login, outbox or disk, in words; empty where nothing is.
        test_address: where everything went in test mode; empty otherwise.
    """

    sent: tuple[Entry, ...] = ()
    put_off: tuple[Entry, ...] = ()
    refused: tuple[Entry, ...] = ()
    given_up: tuple[Entry, ...] = ()
    unsure: tuple[Entry, ...] = ()
    waiting: int = 0
    due: int = 0
    held: Hold | None = None
    fault: str = ""
    test_address: str = ""

    @property
    def is_good(self) -> bool:
        """Return whether nobody needs to look: all went, or waits because the book wants it to."""
        is_wanted = self.held in (None, Hold.NOT_SET_UP, Hold.QUIET_HOURS, Hold.ENDED) or not self.due
        bad = self.put_off or self.refused or self.given_up or self.unsure or self.fault
        return is_wanted and not bad


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
    yield f"{', '.join(told)}{to}; {report.waiting} {'waits' if report.waiting == 1 else 'wait'}"
    if report.held and report.due:
        yield f"{report.due} not tried: {_HELD[report.held]}"


def _line(entry: Entry) -> str:
    """Return a message on one line."""
    return f"{entry.id} to {entry.address}, '{entry.subject}': {entry.state}, {entry.answer}"
