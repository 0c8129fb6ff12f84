"""What needs somebody beside the tasks themselves, in words: clients with problems, rows that wait, bags that are late.

It is reckoned every night, also one in which nothing changed, and so needs nothing that reads or sets documents.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from soilrota.batch.intake_report import counted
from soilrota.batch.ledger import ClientRecord
from soilrota.batch.received import Received
from soilrota.batch.set_aside import FOLDER, table_name
from soilrota.batch.values import Entry, Outcome
from soilrota.problems import Problem, Severity


@dataclass(frozen=True, slots=True)
class Wanting:
    """One reason why somebody is needed: a heading, what to do, a line each, and how many there are [-]."""

    heading: str
    meaning: str
    lines: tuple[str, ...]
    count: int


def wanting(
    entries: Mapping[str, Entry], known: Mapping[str, ClientRecord], received: Iterable[Received], as_of: date
) -> tuple[Wanting, ...]:
    """Return what needs somebody; nothing where nothing does.

    Args:
        entries: what was said of clients in this night, by id.
        known: what the ledger knows of the clients of the book, by id.
        received: what is known of laboratory files.
        as_of: the as-of date.
    """
    names = {client: _name(client, record) for client, record in known.items()}
    clients = tuple(_clients(entries, known, names))
    waiting = [record for record in received if record.is_open]
    rows = sum(len(record.reasons) for record in waiting)
    unread = sum(1 for record in waiting if record.refused)
    late = tuple(_late(known, names, as_of))
    found = (
        Wanting("Clients with problems", "Their earlier papers stand until this is mended.", clients, len(clients)),
        Wanting(
            "Laboratory rows set aside",
            "They are accepted as soon as the table is mended, or a person says that they stand.",
            tuple(map(_file, waiting)),
            rows + unread,
        ),
        Wanting("Bags that are late", "Ring the laboratory: their results should have come.", late, len(late)),
    )
    return tuple(one for one in found if one.lines)


def day_words(day: date) -> str:
    """Return a day as the page writes it, without the library that knows all languages.

    >>> day_words(date(2027, 2, 5))
    '5 February 2027'
    """
    return f"{day.day} {day:%B %Y}"


def _name(client: str, record: ClientRecord) -> str:
    """Return what people call a client; its id where no row says."""
    return next((row["client_name"] for row in record.rows if row.get("client_name")), client)


def _clients(
    entries: Mapping[str, Entry], known: Mapping[str, ClientRecord], names: Mapping[str, str]
) -> Iterator[str]:
    """Yield a line a client whose files have errors, or that the night could not finish."""
    for client in sorted({*entries, *known}):
        entry, record = entries.get(client), known.get(client)
        name = names.get(client, client)
        if entry is not None and entry.outcome in (Outcome.FAILED, Outcome.NOT_REACHED):
            yield f"{name}: {entry.reason or 'not finished'}"
        elif entry is not None and entry.outcome is Outcome.PROBLEMS:
            yield f"{name}: {_first(entry.problems)}"
        elif entry is None and record is not None and record.outcome is Outcome.PROBLEMS:
            yield f"{name}: {_first(record.problems)}"


def _first(problems: Sequence[Problem]) -> str:
    """Return the first error in words, and how many more there are."""
    errors = [problem for problem in problems if problem.severity is Severity.ERROR]
    if not errors:
        return "its files have errors"
    first = errors[0]
    more = f" And {counted(len(errors) - 1, 'more error')}." if len(errors) > 1 else ""
    return f"{first.place}: {first.found}. To mend: {first.mend.rstrip('.')}.{more}"


def _file(record: Received) -> str:
    """Return one laboratory file of which something waits."""
    if record.refused:
        return f"{record.name}: nothing of it could be read: {record.refused[0].found}"
    number, reasons = min(record.reasons.items())
    rows = counted(len(record.reasons), "row")
    return f"{record.name}: {rows} in {FOLDER}/{table_name(record)}; row {number}: {reasons[0].found}"


def _late(known: Mapping[str, ClientRecord], names: Mapping[str, str], as_of: date) -> Iterator[str]:
    """Yield a line a bag whose results should have come, the longest awaited first."""
    bags = [
        (bag.due, bag.client, bag.farm, bag.zone, bag.top_cm, bag)
        for record in known.values()
        for bag in record.missing
        if bag.due is not None and bag.due < as_of
    ]
    for due, *_, bag in sorted(bags, key=lambda found: found[:-1]):
        zones = {(row.get("farm"), row.get("zone")): row.get("zone_name") for row in known[bag.client].rows}
        zone = zones.get((bag.farm, bag.zone)) or bag.zone
        which = f"bag {bag.bag}, " if bag.bag else ""
        depth = f"{bag.top_cm:g} to {bag.bottom_cm:g} cm"
        yield f"{names[bag.client]}, {zone}: {which}{depth}, taken {day_words(bag.since)}, due {day_words(due)}"
