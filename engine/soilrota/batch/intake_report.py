"""How the intake stands, in words for people and as data: what came in, what waits and why, which bags are not back.

Everything is said from the records, so that the same records and the same as-of date give the same words.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import asdict
from datetime import date, timedelta
from typing import Any

from soilrota.batch.intake_values import FileEntry, IntakeReport, Overtaken
from soilrota.batch.problem_records import to_records
from soilrota.batch.received import Received
from soilrota.batch.set_aside import FOLDER, table_name
from soilrota.model.intake import MissingBag
from soilrota.problems import Problem

TEXT_FILE = "intake.txt"
#: Files are told of for so many days after they came [d], and at most so many rows of one file are spelt out [-].
_TOLD_DAYS = 30
_MOST_ROWS = 20


def intake_words(report: IntakeReport, missing: Sequence[MissingBag], overtaken: Sequence[Overtaken] = ()) -> str:
    """Return how the intake stands, in plain text.

    Args:
        report: the intake.
        missing: bags that were taken and have not come back.
        overtaken: documents that were made from results that a corrected report replaced.
    """
    since = report.as_of - timedelta(days=_TOLD_DAYS)
    recent = [record for record in report.records if since < record.received_on <= report.as_of]
    waiting = [record for record in report.records if record.is_open]
    again = [entry for entry in report.files if entry.again]
    parts = (
        (f"Taken in since {since + timedelta(days=1)}", [line for record in recent for line in _taken(record)]),
        ("Dropped again, nothing done", [_again(entry) for entry in again]),
        (_set_aside_head(waiting), [line for record in waiting for line in _set_aside(record)]),
        ("Odd, but taken in", [f"{words}" for record in recent for words in record.remarks]),
        ("Corrected reports", [line for record in recent for line in _corrected(record)]),
        ("Documents to issue again", [_overtaken(one) for one in overtaken]),
        (_missing_head(missing), [_missing(one, report.as_of) for one in missing]),
        ("Left in the inbox", [f"{one.name}: {one.reason}" for one in report.alone]),
        ("What went wrong", [line for fault in report.faults for line in fault.splitlines()]),
    )
    lines = [f"Laboratory results as of {report.as_of}"]
    for head, found in parts:
        if found:
            lines += ["", head, *(f"  {_seen(line)}" for line in found)]
    if len(lines) == 1:
        lines += ["", "Nothing has come in, nothing waits, and no bag is missing."]
    return "\n".join(lines) + "\n"


def counted(number: int, one: str, many: str = "") -> str:
    """Return a number with its noun.

    >>> counted(1, "row"), counted(2, "row"), counted(2, "is", "are")
    ('1 row', '2 rows', '2 are')
    """
    return f"{number} {one if number == 1 else many or one + 's'}"


def _seen(line: str) -> str:
    """Return a line without signs that cannot be seen: names of files and reports may hold any."""
    return "".join(sign if sign.isprintable() else " " if sign.isspace() else "\ufffd" for sign in line)


def _again(entry: FileEntry) -> str:
    """Return that the same bytes came before."""
    record = entry.record
    under = "" if entry.dropped_as == record.name else f" as {record.name}"
    return f"{entry.dropped_as}: the same file came on {record.received_on}{under}"


def _taken(record: Received) -> Iterator[str]:
    """Yield what is said of a file that came in."""
    if record.refused:
        yield f"{record.name}: nothing could be read, see below"
        return
    parts = [f"{len(record.accepted)} accepted"]
    parts += [f"{len(record.reasons)} set aside"] if record.reasons else []
    back = sum(words.startswith("mended") for words in (record.settled or {}).values())
    closed = len(record.settled or {}) - back
    parts += [f"{back} came back mended"] if back else []
    parts += [f"{closed} closed"] if closed else []
    reports = f", {'report' if len(record.reports) == 1 else 'reports'} {', '.join(record.reports)}"
    whose = f" ({record.laboratory}{reports if record.reports else ''})" if record.laboratory else ""
    yield f"{record.received_on} {record.name}{whose}: {counted(record.rows, 'row')}: {', '.join(parts)}"
    yield from (f"  {note}" for note in record.notes)


def _set_aside_head(waiting: Iterable[Received]) -> str:
    """Return the head over what waits for a person."""
    rows = sum(len(record.reasons) for record in waiting)
    files = sum(bool(record.refused) for record in waiting)
    parts = [counted(rows, "row")] if rows else []
    parts += [counted(files, "whole file")] if files else []
    return f"Set aside: {' and '.join(parts)} {'waits' if rows + files == 1 else 'wait'} for somebody"


def _set_aside(record: Received) -> Iterator[str]:
    """Yield why rows of a file wait, and how to mend them."""
    if record.refused:
        yield f"{record.name}, since {record.received_on}; it is tried again when the book changes"
        yield from (f"  {reason}" for reason in record.refused)
        return
    yield f"{record.name}, since {record.received_on}; mend {FOLDER}/{table_name(record)} and drop it into inbox/"
    for number, reasons in sorted(record.reasons.items())[:_MOST_ROWS]:
        yield from (f"  row {number}: {_why(reason)}" for reason in reasons)
    more = len(record.reasons) - _MOST_ROWS
    if more > 0:
        yield f"  and {counted(more, 'more row', 'more rows')}, with the reasons in that table"


def _why(reason: Problem) -> str:
    """Return a reason without its place, which the row names."""
    wanted = f"; expected {reason.expected}" if reason.expected else ""
    return f"{reason.found}{wanted}. To mend: {reason.mend}."


def _corrected(record: Received) -> Iterator[str]:
    """Yield what a later issue of a report changed."""
    for client, words in sorted((record.corrected or {}).items()):
        yield from (f"{client}: {one}" for one in words)


def _overtaken(one: Overtaken) -> str:
    """Return that a document shows results that were corrected since."""
    words = f"{one.client}: {one.document} of {one.day} shows values of report {one.report} from before its correction"
    return f"{words}; it was made again tonight" if one.made_again else words


def _missing_head(missing: Sequence[MissingBag]) -> str:
    """Return the head over the bags that are not back."""
    return f"Not back from the laboratory: {counted(len(missing), 'bag')}"


def _missing(bag: MissingBag, as_of: date) -> str:
    """Return what is said of one bag that is not back."""
    name = f"bag {bag.bag}" if bag.bag else "a bag without an id"
    what = f"{bag.client} {bag.farm}/{bag.zone} {bag.top_cm:g}-{bag.bottom_cm:g} cm, {name}: taken {bag.since}"
    if bag.due is None:
        return what
    late = (as_of - bag.due).days
    return f"{what}, results due {bag.due}" + (f", {counted(late, 'day')} late" if late > 0 else "")


def intake_record(report: IntakeReport) -> dict[str, Any]:
    """Return how an intake went as data; `soilrota.batch.run_report` names the keys."""
    return {
        "files": [
            {**_record(entry.record), "again": entry.again, "fresh": entry.fresh, "taken": entry.taken}
            for entry in report.files
        ],
        "waiting": [_record(record) for record in report.records if record.is_open],
        "left": [{"file": one.name, "reason": one.reason} for one in report.alone],
    }


def missing_record(bag: MissingBag) -> dict[str, Any]:
    """Return a bag that is not back as data."""
    return {**asdict(bag), "since": bag.since.isoformat(), "due": bag.due.isoformat() if bag.due else None}


def overtaken_record(one: Overtaken) -> dict[str, Any]:
    """Return an overtaken document as data."""
    return {
        "client": one.client,
        "document": one.document,
        "date": one.day.isoformat(),
        "report": one.report,
        "made_again": one.made_again,
    }


def _record(record: Received) -> dict[str, Any]:
    """Return one file as data."""
    return {
        "file": record.name,
        "sha256": record.digest,
        "received_on": record.received_on.isoformat(),
        "laboratory": record.laboratory,
        "reports": list(record.reports),
        "rows": record.rows,
        "accepted": len(record.accepted),
        "set_aside": {str(number): to_records(reasons) for number, reasons in sorted(record.reasons.items())},
        "settled": {str(number): words for number, words in sorted((record.settled or {}).items())},
        "refused": to_records(record.refused),
        "notes": to_records(record.notes),
    }
