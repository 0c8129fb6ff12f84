"""The morning summary of a night, for the practice: what was made, what has problems, what waits for somebody."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from html import escape

from soilrota.batch.values import Entry, NightReport, Outcome
from soilrota.model.messages import Message, MessageKey, Urgency
from soilrota.model.practice import Person, Practice
from soilrota.problems import Problem, Severity

#: Why it is sent, as its key says.
MORNING = "morning"
#: So many problems of one client are spelt out [-]; the rest stands in run.json.
_MOST = 10


def morning_messages(report: NightReport, practice: Practice) -> tuple[Message, ...]:
    """Return the summary of a night, one message a person who gets it; none where there is nothing to say.

    It goes to the people of the office, or to the advisers where nobody of the office has an address.

    Args:
        report: the night.
        practice: the practice.
    """
    lines = list(_lines(report))
    if not lines:
        return ()
    text = "\n".join(lines) + "\n"
    bad = bool(report.faults) or report.count(Outcome.FAILED) > 0
    return tuple(
        Message(
            key=MessageKey(person.email.casefold(), MORNING, report.as_of, ""),
            to_name=person.name,
            to_address=person.email,
            subject=f"The night of {report.as_of}: {_sum(report)}",
            text=text,
            html=f'<!doctype html><html lang="en"><meta charset="utf-8"><pre>{escape(text)}</pre></html>',
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


def _sum(report: NightReport) -> str:
    """Return the night in a few words."""
    wrong = report.count(Outcome.PROBLEMS) + report.count(Outcome.FAILED) + report.count(Outcome.NOT_REACHED)
    waits = _waiting(report)
    parts = [f"{report.count(Outcome.MADE)} made"]
    parts += [f"{wrong} with problems"] if wrong else []
    parts += [f"{waits} set aside"] if waits else []
    return ", ".join(parts)


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
    yield f"As of {report.as_of}: {len(made)} made, {unchanged} unchanged, {len(wrong)} with problems."
    yield from _part("What went wrong", report.faults)
    yield from _part("Problems", [line for entry in wrong for line in _of_client(entry)])
    yield from _part("Shared files", _errors(report.problems))
    if waits:
        yield from _part("Laboratory rows and files set aside", [f"{waits}; see intake.txt and records/set_aside"])
    late = [bag for bag in report.missing if bag.due is not None and bag.due < report.as_of]
    yield from _part(
        "Late at the laboratory",
        [f"{one.client} {one.farm}/{one.zone}, bag {one.bag or 'without an id'}" for one in late],
    )
    yield from _part(
        "Documents to issue again", [f"{one.client}: {one.document} of {one.day}" for one in report.overtaken]
    )
    yield from _part("Made", [", ".join(made)] if made else [])


def _part(head: str, lines: Iterable[str]) -> Iterator[str]:
    """Yield a part of the summary; nothing where it has no line."""
    found = list(lines)
    if found:
        yield ""
        yield head
        yield from (f"  {line}" for line in found)


def _of_client(entry: Entry) -> Iterator[str]:
    """Yield what is wrong with one client, with file and line."""
    yield f"{entry.client}: {entry.outcome}" + (f", {entry.reason}" if entry.reason else "")
    yield from (f"  {line}" for line in _errors(entry.problems))


def _errors(problems: Iterable[Problem]) -> Iterator[str]:
    """Yield errors with their places, and how many more there are."""
    errors = [str(problem) for problem in problems if problem.severity is Severity.ERROR]
    yield from errors[:_MOST]
    if len(errors) > _MOST:
        yield f"and {len(errors) - _MOST} more, see run.json"
