"""A reminder in words: a headline, sentences below it, and the few words that a subject has room for."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from soilrota.delivery.days import time_words
from soilrota.delivery.sentence_words import Said, Words
from soilrota.delivery.window_sentences import best_day, closing, decision, opens_soon, overdue, spreading
from soilrota.language import said_again, say, say_as, say_count
from soilrota.model.reminder_choices import Audience, ReminderKind
from soilrota.model.reminders import Recipient, Reminder, TaskName
from soilrota.quantities import analysis_name


def said(reminder: Reminder, tasks: Sequence[TaskName], to: Recipient, as_of: date) -> Said:
    """Return a reminder in words of the language that is spoken, which is to be that of who reads it.

    Args:
        reminder: the reminder.
        tasks: the tasks of all reminders that are told in one.
        to: who reads it.
        as_of: the as-of date.
    """
    event = reminder.event
    return _KINDS[event.kind](Words(event, tuple(dict.fromkeys(tasks)), to, as_of, reminder.before))


def _visit(words: Words) -> Said:
    facts = words.facts
    if "gone" in facts:
        head = say("The visit planned for {day} will not take place", day=words.day("gone"))
        return Said(head, (say("You are told again if another day is found."),), say_as("subject", "visit is off"))
    work = say("The work takes about {time} on the farm.", time=time_words(int(facts["minutes"])))
    if words.to.audience is Audience.SAMPLER and words.to.id == words.event.person:
        return _own_visit(words, work)
    lines = [*words.moved, work]
    if words.to.audience is Audience.CONTACT:
        lines.append(say("Please tell us if stock, spraying or wet ground stand in the way."))
    first, away = words.day("first"), words.away("first")
    if facts["last"] > facts["first"]:
        head = say(
            "{person} comes to take soil samples on {first} to {last}, {away}",
            person=facts["who"],
            first=first,
            last=words.day("last"),
            away=away,
        )
    else:
        head = say("{person} comes to take soil samples on {day}, {away}", person=facts["who"], day=first, away=away)
    moved, stands = say_as("subject", "soil sampling visit has moved"), say_as("subject", "soil sampling visit")
    return Said(head, (*lines, *words.where), moved if words.before else stands)


def _own_visit(words: Words, work: str) -> Said:
    """Return a visit for who makes it; `work` says how long it takes."""
    facts = words.facts
    lines = [*words.moved, work, *words.where]
    if facts["locality"]:
        lines.append(say("Where: {place}", place=facts["locality"]))
    if facts["contacts"]:
        lines.append(say("Call before you come: {contacts}", contacts="; ".join(facts["contacts"])))
    first, away = words.day("first"), words.away("first")
    if facts["last"] > facts["first"]:
        head = say("You sample here on {first} to {last}, {away}", first=first, last=words.day("last"), away=away)
    else:
        head = say("You sample here on {day}, {away}", day=first, away=away)
    moved, stands = say_as("subject", "your visit has moved"), say_as("subject", "your visit")
    return Said(head, tuple(lines), moved if words.before else stands)


def _bags_out(words: Words) -> Said:
    facts = words.facts
    since, due = words.date("since"), words.date("due")
    lines = [say("Sampled on {day}; they were to be expected by {due}.", day=since, due=due), *words.where]
    if facts["bags"]:
        lines.append(say("Bag ids: {bags}", bags=", ".join(facts["bags"])))
    count = int(facts["count"])
    if facts["laboratory"]:
        head = say_count(
            "Results of {count} bag are not back from {laboratory}",
            "Results of {count} bags are not back from {laboratory}",
            count,
            laboratory=facts["laboratory"],
        )
    else:
        head = say_count(
            "Results of {count} bag are not back from the laboratory",
            "Results of {count} bags are not back from the laboratory",
            count,
        )
    return Said(head, tuple(lines), say_as("subject", "results not back from the laboratory"))


def _report(words: Words) -> Said:
    line = say("Signed by {person} on {day}.", person=words.facts["by"], day=words.date("signed"))
    return Said(say("The farm report is ready"), (line,), say_as("subject", "farm report ready"))


def _draft(words: Words) -> Said:
    made = words.date("made")
    lines = [say("It was last changed on {day}. Nothing is sent to the client before you sign it.", day=made)]
    if words.facts["signed_before"]:
        lines.append(say("It was signed before; since then this changed:"))
    changed = map(said_again, words.facts["changed"])
    lines += [f"{one[:1].upper()}{one[1:]}" for one in changed]
    head = say("A draft report waits for your signature")
    return Said(head, tuple(lines), say_as("subject", "draft report to sign"))


def _set_aside(words: Words) -> Said:
    facts = words.facts
    file, rows, came = facts["file"], int(facts["rows"]), words.date("received")
    if rows:
        head = say_count(
            "{count} row of {file} waits for somebody to look",
            "{count} rows of {file} wait for somebody to look",
            rows,
            file=file,
        )
    else:
        head = say("All of {file} waits for somebody to look", file=file)
    if facts["laboratory"]:
        line = say("The file from {laboratory} came on {day}.", laboratory=facts["laboratory"], day=came)
    else:
        line = say("The file came on {day}.", day=came)
    reasons = say("The reasons stand in {file}.", file="intake.txt")
    return Said(head, (f"{line} {reasons}",), say_as("subject", "laboratory rows set aside"))


def _laboratory_off(words: Words) -> Said:
    lines = (
        say("Check samples have shown it since {day}.", day=words.date("since")),
        say(
            "Ask the laboratory before new results are relied on. The chart is in {file}.",
            file="laboratory_checks.pdf",
        ),
    )
    head = say(
        "{laboratory} is off for {analysis}",
        laboratory=words.facts["laboratory"],
        analysis=analysis_name(words.facts["analysis"]),
    )
    return Said(head, lines, say_as("subject", "check samples off"))


_KINDS: dict[ReminderKind, Callable[[Words], Said]] = {
    ReminderKind.OPENS_SOON: opens_soon,
    ReminderKind.BEST_DAY: best_day,
    ReminderKind.VISIT: _visit,
    ReminderKind.CLOSING: closing,
    ReminderKind.SPREADING: spreading,
    ReminderKind.OVERDUE: overdue,
    ReminderKind.DECISION: decision,
    ReminderKind.BAGS_OUT: _bags_out,
    ReminderKind.REPORT: _report,
    ReminderKind.DRAFT: _draft,
    ReminderKind.SET_ASIDE: _set_aside,
    ReminderKind.LABORATORY_OFF: _laboratory_off,
}
