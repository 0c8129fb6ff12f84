"""The morning summary of a night, for the practice: what was made, what has problems, what waits for somebody."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from html import escape

from soilrota.batch.values import Entry, NightReport, Outcome
from soilrota.language import marked_as, say, say_as, say_count, speaking, spoken
from soilrota.model.messages import Message, MessageKey, Urgency
from soilrota.model.practice import Person, Practice
from soilrota.problems import Problem, Severity

#: Why it is sent, as its key says.
MORNING = "morning"
#: So many problems of one client are spelt out [-]; the rest stands in run.json.
_MOST = 10
#: What became of a client, after its id.
_BECAME = {
    Outcome.PROBLEMS: marked_as("client", "problems"),
    Outcome.FAILED: marked_as("client", "failed"),
    Outcome.NOT_REACHED: marked_as("client", "not-reached"),
}


def morning_messages(report: NightReport, practice: Practice) -> tuple[Message, ...]:
    """Return the summary of a night, one message a person who gets it; none where there is nothing to say.

    It goes to the people of the office, or to the advisers where nobody of the office has an address, in the
    practice's language; problems and faults stand in it as the engine's reports have them, in English.

    Args:
        report: the night.
        practice: the practice.
    """
    with speaking(practice.language):
        return _messages(report, practice)


def _messages(report: NightReport, practice: Practice) -> tuple[Message, ...]:
    """Return the summary of a night in the language that is spoken."""
    lines = list(_lines(report))
    if not lines:
        return ()
    text = "\n".join(lines) + "\n"
    page = f'<!doctype html><html lang="{practice.language.partition("-")[0]}"><meta charset="utf-8">'
    bad = bool(report.faults) or report.count(Outcome.FAILED) > 0
    return tuple(
        Message(
            key=MessageKey(person.email.casefold(), MORNING, report.as_of, ""),
            to_name=person.name,
            to_address=person.email,
            subject=say("The night of {day}: {counts}", day=_day(report.as_of), counts=_sum(report)),
            text=text,
            html=f'{page}<pre style="white-space: pre-wrap; overflow-wrap: anywhere">{escape(text)}</pre></html>',
            urgency=Urgency.SOON if bad else Urgency.ORDINARY,
        )
        for person in readers(practice)
    )


def readers(practice: Practice) -> tuple[Person, ...]:
    """Return who gets the summary, by id."""
    people = sorted(practice.people.values(), key=lambda person: person.id)
    for role in ("office", "adviser"):
        found = tuple(person for person in people if person.role == role and person.email)
        if found:
            return found
    return ()


def _day(day: date) -> str:
    """Return a day as the practice writes it."""
    from soilrota.language.days import long_day  # noqa: PLC0415 - a night of which nothing is told loads no locales

    return long_day(day, spoken())


def _sum(report: NightReport) -> str:
    """Return the night in a few words."""
    wrong = report.count(Outcome.PROBLEMS) + report.count(Outcome.FAILED) + report.count(Outcome.NOT_REACHED)
    waits = _waiting(report)
    parts = [_made(report.count(Outcome.MADE))]
    parts += [_with_problems(wrong)] if wrong else []
    parts += [say_count("{count} set aside", "{count} set aside", waits)] if waits else []
    return ", ".join(parts)


def _made(count: int) -> str:
    """Return for how many clients something was made."""
    return say_count("{count} made", "{count} made", count)


def _with_problems(count: int) -> str:
    """Return how many clients have problems."""
    return say_count("{count} with problems", "{count} with problems", count)


def _waiting(report: NightReport) -> int:
    """Return how many rows and files of laboratories wait for somebody [-]."""
    records = report.intake.records if report.intake else ()
    return sum(len(record.reasons) or 1 for record in records if record.is_open)


def _lines(report: NightReport) -> Iterator[str]:
    """Yield the summary; nothing where no client was made, nothing is wrong and nothing waits."""
    made = [entry.client for entry in report.entries if entry.outcome is Outcome.MADE]
    wrong = [entry for entry in report.entries if entry.outcome not in {Outcome.MADE, Outcome.UNCHANGED}]
    waits = _waiting(report)
    if not (made or wrong or waits or report.faults or report.missing or report.overtaken):
        return
    unchanged = report.count(Outcome.UNCHANGED)
    stands = say_count("{count} unchanged", "{count} unchanged", unchanged)
    counts = ", ".join((_made(len(made)), stands, _with_problems(len(wrong))))
    yield say("As of {day}: {counts}.", day=_day(report.as_of), counts=counts)
    yield from _part(say("What went wrong"), report.faults)
    yield from _part(say("Problems"), [line for entry in wrong for line in _of_client(entry)])
    yield from _part(say("Shared files"), _errors(report.problems))
    if waits:
        where = say("{count}; see intake.txt and records/set_aside", count=waits)
        yield from _part(say("Laboratory rows and files set aside"), [where])
    yield from _part(say("Late at the laboratory"), _late(report))
    again = (
        say("{client}: {document} of {day}", client=one.client, document=one.document, day=_day(one.day))
        for one in report.overtaken
    )
    yield from _part(say("Documents to issue again"), again)
    yield from _part(say_as("clients", "Made"), [", ".join(made)] if made else [])


def _late(report: NightReport) -> Iterator[str]:
    """Yield the bags of which results were due before."""
    for one in report.missing:
        if one.due is not None and one.due < report.as_of:
            where = f"{one.client} {one.farm}/{one.zone}"
            if one.bag:
                yield say("{where}, bag {bag}", where=where, bag=one.bag)
            else:
                yield say("{where}, bag without an id", where=where)


def _part(head: str, lines: Iterable[str]) -> Iterator[str]:
    """Yield a part of the summary; nothing where it has no line."""
    found = list(lines)
    if found:
        yield ""
        yield head
        yield from (f"  {line}" for line in found)


def _of_client(entry: Entry) -> Iterator[str]:
    """Yield what is wrong with one client, with file and line."""
    became = say_as("client", _BECAME[entry.outcome])
    yield f"{entry.client}: {became}" + (f", {entry.reason}" if entry.reason else "")
    yield from (f"  {line}" for line in _errors(entry.problems))


def _errors(problems: Iterable[Problem]) -> Iterator[str]:
    """Yield errors with their places, and how many more there are."""
    errors = [str(problem) for problem in problems if problem.severity is Severity.ERROR]
    yield from errors[:_MOST]
    if len(errors) > _MOST:
        more = len(errors) - _MOST
        yield say_count("and {count} more, see run.json", "and {count} more, see run.json", more)
