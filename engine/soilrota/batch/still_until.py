"""Up to which day a night has nothing to do, while no file of the book changes and nobody drops one into its inbox."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from pathlib import Path

from soilrota.batch.book_facts import BookFacts
from soilrota.batch.ledger import ClientRecord, Ledger
from soilrota.batch.record_files import OUTBOX
from soilrota.batch.remind_step import NAME as REMINDERS
from soilrota.batch.remind_step import is_worth_telling
from soilrota.batch.shared_step import FIELD_CALENDAR, LABORATORY_CHECKS
from soilrota.batch.values import NightReport
from soilrota.batch.visit_rows import visit_day

_ONE_DAY = timedelta(days=1)


def still_until(
    root: Path, report: NightReport, facts: BookFacts, clients: Sequence[ClientRecord], ledger: Ledger
) -> date | None:
    """Return that day; None where the night had something to do itself, or somebody to tell something.

    Args:
        root: the book's folder.
        report: the night.
        facts: what is known of the book.
        clients: what is known of each client that is as its files say.
        ledger: the open ledger.
    """
    made = (*report.shared, *report.packs, *report.reports, *report.feeds)
    if is_worth_telling(report) or report.stopped_by is not None or any(one.made for one in made):
        return None
    if report.intake is None or report.intake.files or report.intake.alone or (facts.sends and _mail_waits(root)):
        return None
    return min(_last_days(report, facts, clients, ledger))


def _last_days(
    report: NightReport, facts: BookFacts, clients: Sequence[ClientRecord], ledger: Ledger
) -> Iterator[date]:
    """Yield, for everything that a night looks at, a day up to which it stands as it is."""
    for record in clients:
        yield record.holds_until
    for name in (FIELD_CALENDAR.name, LABORATORY_CHECKS.name, REMINDERS):
        known = ledger.shared(name)
        yield known.holds_until if known is not None else report.as_of
    names = {record.client for record in clients}
    for client, of_reports in ledger.reports().items():
        if client in names:
            yield of_reports.holds_until
    for day in _pack_days(facts, clients, ledger):
        if day > report.as_of:
            yield day - _ONE_DAY
    for bag in report.missing:
        if bag.due is not None and bag.due >= report.as_of:
            yield bag.due


def _pack_days(facts: BookFacts, clients: Sequence[ClientRecord], ledger: Ledger) -> Iterator[date]:
    """Yield for each visit the first day on which its field pack is made."""
    calendar = ledger.shared(FIELD_CALENDAR.name)
    placed = {row["visit"]: row for row in calendar.placed} if calendar is not None else {}
    for record in clients:
        for visit in record.visits:
            yield visit_day(visit, placed) - timedelta(days=facts.pack_days)


def _mail_waits(root: Path) -> bool:
    """Return whether a message waits to be sent: when it may go is a matter of hours, not of days."""
    from soilrota.delivery.outbox import open_outbox  # noqa: PLC0415 - only a practice that sends mail needs it
    from soilrota.delivery.values import OPEN  # noqa: PLC0415 - as above

    if not (root / OUTBOX).is_file():
        return False
    with open_outbox(root / OUTBOX, to_read=True) as outbox:
        return bool(outbox.entries(*OPEN))
