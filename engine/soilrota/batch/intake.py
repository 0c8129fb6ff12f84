"""Intake by itself, without a night: the inbox is taken in, and what is known of it is written down."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from math import inf
from pathlib import Path

from soilrota.batch.book_facts import BookFacts
from soilrota.batch.intake_report import TEXT_FILE, intake_words
from soilrota.batch.intake_step import IntakeRequest, take_inbox
from soilrota.batch.intake_values import IntakeReport
from soilrota.batch.ledger import Ledger
from soilrota.batch.opening import known_facts, open_book
from soilrota.batch.outputs import prepare_output
from soilrota.files import replace_file
from soilrota.model.intake import MissingBag


@dataclass(frozen=True, slots=True)
class Clock:
    """How time is told and passes: the time now [s since 1970], and a wait [s]."""

    now: Callable[[], float]
    wait: Callable[[float], None]


#: Tells a time so late that every file has been quiet for long enough.
NO_HURRY = Clock(lambda: inf, lambda _seconds: None)


@dataclass(frozen=True, slots=True)
class IntakeAsk:
    """What is asked of an intake.

    Attributes:
        root: the book's folder.
        as_of: the as-of date.
        jobs: workers at once [-].
    """

    root: Path
    as_of: date
    jobs: int


@dataclass(frozen=True, slots=True)
class AloneRequest:
    """What is asked of an intake without a night.

    Attributes:
        root, out: the book's folder and the output folder.
        started: when it starts, ISO 8601, for the lock.
        as_of: the as-of date; None for today in the practice's time zone.
        jobs: workers at once [-].
    """

    root: Path
    out: Path
    started: str
    as_of: date | None
    jobs: int


def run_intake(
    request: AloneRequest, today: Callable[[str], date], clock: Clock, must_stop: Callable[[], bool]
) -> tuple[IntakeReport, str]:
    """Take the inbox in, write `intake.txt`, and return how it went, with its words.

    Args:
        request: what is asked.
        today: returns today's date in a time zone (IANA name); asked only where no as-of date is given.
        clock: tells the time.
        must_stop: asked a few times a second.

    Raises:
        CannotStartError: nothing was begun; the text says why.
        AnotherRunError: another process is at work on this book.
        OSError: a file cannot be written; what was done is whole.
    """
    with open_book(request.root, request.started) as ledger:
        facts = known_facts(request.root, ledger)
        as_of = request.as_of or today(facts.time_zone)
        prepare_output(request.root, request.out)
        report = take_in(IntakeAsk(request.root, as_of, request.jobs), facts, clock, ledger, must_stop)
        words = intake_words(report, _missing(request.root, facts, as_of), ledger.overtaken())
        replace_file(request.out / TEXT_FILE, words.encode())
        return report, words


def _missing(root: Path, facts: BookFacts, as_of: date) -> tuple[MissingBag, ...]:
    """Return the bags that have not come back; none where the shared files got errors since."""
    from soilrota.batch.bags import missing_in_book  # noqa: PLC0415 - loads what reads the book
    from soilrota.batch.reading import read_shared  # noqa: PLC0415 - as above

    shared, _ = read_shared(root)
    return () if shared is None else missing_in_book(root, facts.clients, shared, as_of)


def take_in(
    ask: IntakeAsk, facts: BookFacts, clock: Clock, ledger: Ledger, must_stop: Callable[[], bool]
) -> IntakeReport:
    """Take the inbox of an open book in; faults are values of the report.

    Args:
        ask: what is asked.
        facts: what is known of the book.
        clock: tells the time.
        ledger: the open ledger, which is told of documents that corrected reports have overtaken.
        must_stop: asked a few times a second.
    """
    request = IntakeRequest(
        root=ask.root,
        as_of=ask.as_of,
        rests_on=(facts.shared, facts.engine),
        clients=facts.clients,
        quiet_s=facts.quiet_s,
        jobs=ask.jobs,
        deadline_s=facts.deadline_s,
        memory_mb=facts.memory_mb,
        now=clock.now,
        wait=clock.wait,
        mark=ledger.mark_overtaken,
    )
    try:
        return take_inbox(request, must_stop)
    except OSError as fault:
        return IntakeReport(ask.as_of, faults=(f"{fault.filename or 'the inbox'} could not be used: {fault.strerror}",))
    except ValueError as fault:
        return IntakeReport(ask.as_of, faults=(str(fault),))
