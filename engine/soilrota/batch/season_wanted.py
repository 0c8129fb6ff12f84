"""What needs somebody beside the tasks themselves, in words: clients with problems, rows that wait, bags that are late.

It is reckoned every night, also one in which nothing changed, and so needs nothing that reads or sets documents. The
words are English, as problems are; headings and lines can be said again in the language of the page.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from soilrota.batch.ledger import ClientRecord
from soilrota.batch.received import Received
from soilrota.batch.set_aside import FOLDER, table_name
from soilrota.batch.values import Entry, Outcome
from soilrota.language import marked, phrase, say_count, spoken
from soilrota.problems import Problem, Severity

#: The language in which lines are written before anybody speaks another.
_ENGLISH = "en-GB"


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
        Wanting(
            marked("Clients with problems"),
            marked("Their earlier papers stand until this is mended."),
            clients,
            len(clients),
        ),
        Wanting(
            marked("Laboratory rows set aside"),
            marked("They are accepted as soon as the table is mended, or a person says that they stand."),
            tuple(map(_file, waiting)),
            rows + unread,
        ),
        Wanting(
            marked("Bags that are late"),
            marked("Ring the laboratory: their results should have come."),
            late,
            len(late),
        ),
    )
    return tuple(one for one in found if one.lines)


@dataclass(frozen=True, slots=True)
class _Spoken:
    """A fact that is put in words when it is said, in the language that is spoken then."""

    words: Callable[[], str]

    def __format__(self, form: str) -> str:
        """Return the words."""
        return format(self.words(), form)


def _day(day: date) -> _Spoken:
    """Return a day as a fact."""
    return _Spoken(lambda: _day_words(day))


def _day_words(day: date) -> str:
    """Return a day in full; in English without the library that knows all languages."""
    if spoken() == _ENGLISH:
        return f"{day.day} {day:%B %Y}"
    from soilrota.language.days import long_day  # noqa: PLC0415 - as above

    return long_day(day, spoken())


def _figure(value: float) -> _Spoken:
    """Return a number as a fact."""
    return _Spoken(lambda: _figure_words(f"{value:g}"))


def _figure_words(written: str) -> str:
    """Return a number as the language writes it, likewise."""
    if spoken() == _ENGLISH:
        return written
    from soilrota.language.figures import digits  # noqa: PLC0415 - as above

    return digits(written)


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
            yield _of_client(name, entry.reason or phrase("not finished"))
        elif entry is not None and entry.outcome is Outcome.PROBLEMS:
            yield _of_client(name, _first(entry.problems))
        elif entry is None and record is not None and record.outcome is Outcome.PROBLEMS:
            yield _of_client(name, _first(record.problems))


def _of_client(name: str, what: str) -> str:
    """Return the line of a client."""
    return phrase("{client}: {problem}", client=name, problem=what)


def _first(problems: Sequence[Problem]) -> str:
    """Return the first error in words, and how many more there are."""
    errors = [problem for problem in problems if problem.severity is Severity.ERROR]
    if not errors:
        return phrase("its files have errors")
    first, left = errors[0], len(errors) - 1
    facts = {
        "place": str(first.place),
        "found": first.found,
        "mend": first.mend.rstrip(".") if first.mend.endswith(".") else first.mend,
    }
    if not left:
        return phrase("{place}: {found}. To mend: {mend}.", **facts)
    more = _Spoken(lambda: say_count("{count} more error", "{count} more errors", left))
    return phrase("{place}: {found}. To mend: {mend}. And {errors}.", errors=more, **facts)


def _file(record: Received) -> str:
    """Return one laboratory file of which something waits."""
    if record.refused:
        return phrase("{file}: nothing of it could be read: {found}", file=record.name, found=record.refused[0].found)
    number, reasons = min(record.reasons.items())
    rows = _Spoken(lambda: say_count("{count} row", "{count} rows", len(record.reasons)))
    return phrase(
        "{file}: {rows} in {table}; row {number}: {found}",
        file=record.name,
        rows=rows,
        table=f"{FOLDER}/{table_name(record)}",
        number=number,
        found=reasons[0].found,
    )


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
        facts: dict[str, object] = {
            "client": names[bag.client],
            "zone": zone,
            "top": _figure(bag.top_cm),
            "bottom": _figure(bag.bottom_cm),
            "taken": _day(bag.since),
            "due": _day(due),
        }
        if bag.bag:
            yield phrase(
                "{client}, {zone}: bag {bag}, {top} to {bottom} cm, taken {taken}, due {due}", bag=bag.bag, **facts
            )
        else:
            yield phrase("{client}, {zone}: {top} to {bottom} cm, taken {taken}, due {due}", **facts)
