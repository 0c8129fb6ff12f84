"""A reminder in words: a headline, sentences below it, and the few words that a subject has room for."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from soilrota.delivery.days import away_words, counted, date_words, day_words, joined, time_words
from soilrota.model.reminder_choices import Audience, ReminderKind
from soilrota.model.reminders import Event, Recipient, Reminder, TaskName

#: Classes of material as people say them, where the id itself is no word.
_CLASSES = {
    "mineral-fertiliser": "fertiliser",
    "manure": "manure or slurry",
    "other-amendment": "another amendment",
}


@dataclass(frozen=True, slots=True)
class Said:
    """A reminder in words; `short` is what a subject says, without the farm."""

    head: str
    lines: tuple[str, ...]
    short: str


@dataclass(frozen=True, slots=True)
class Words:
    """What words are made of: the event, its tasks, who reads, and when."""

    event: Event
    tasks: tuple[TaskName, ...]
    to: Recipient
    as_of: date
    before: date | None = None

    @property
    def moved(self) -> tuple[str, ...]:
        """What is said of a day that moved since it was said; nothing where it did not."""
        if self.before is None:
            return ()
        return (f"This is a change: before, it was {day_words(self.before, self.to.language, self.as_of)}.",)

    @property
    def facts(self) -> Mapping[str, Any]:
        """The facts of the event."""
        return self.event.facts

    def day(self, name: str) -> str:
        """Return a fact that is a day, with its weekday."""
        return day_words(self.facts[name], self.to.language, self.as_of)

    def date(self, name: str) -> str:
        """Return a fact that is a day, with its year."""
        return date_words(self.facts[name], self.to.language)

    def away(self, name: str) -> str:
        """Return how far ahead a fact that is a day is."""
        return away_words(self.facts[name], self.as_of)

    @property
    def where(self) -> tuple[str, ...]:
        """What is to be sampled, a line a protocol."""
        return what_where(self.tasks)

    @property
    def material(self) -> str:
        """What is spread: the material where it was named, else its class."""
        name = str(self.facts["material"]).strip()
        return name or _CLASSES.get(str(self.facts["class"]), str(self.facts["class"]))


def said(reminder: Reminder, tasks: Sequence[TaskName], to: Recipient, as_of: date) -> Said:
    """Return a reminder in words.

    Args:
        reminder: the reminder.
        tasks: the tasks of all reminders that are told in one.
        to: who reads it.
        as_of: the as-of date.
    """
    event = reminder.event
    return _KINDS[event.kind](Words(event, tuple(dict.fromkeys(tasks)), to, as_of, reminder.before))


def what_where(tasks: Sequence[TaskName]) -> tuple[str, ...]:
    """Return tasks as lines, one for the zones of each protocol.

    >>> what_where((TaskName("Barn", "Topsoil pasture"), TaskName("Ridge", "Topsoil pasture")))
    ('Topsoil pasture: Barn and Ridge',)
    """
    protocols: dict[str, list[str]] = {}
    for task in tasks:
        protocols.setdefault(task.protocol, []).append(task.zone)
    return tuple(f"{protocol}: {joined(dict.fromkeys(zones))}" for protocol, zones in protocols.items())


def _opens_soon(words: Words) -> Said:
    best = f" The best day is {words.day('best')}." if "best" in words.facts else ""
    return Said(
        f"Soil sampling opens on {words.day('first')}",
        (f"The last day is {words.day('last')}.{best}", *words.where),
        "sampling opens soon",
    )


def _best_day(words: Words) -> Said:
    return Said(
        f"The best day to sample is {words.day('best')}, {words.away('best')}",
        (
            *words.moved,
            f"No visit is planned for it yet. The last day in time is {words.day('last')}.",
            *words.where,
        ),
        "best day to sample is near",
    )


def _visit(words: Words) -> Said:
    facts = words.facts
    if "gone" in facts:
        line = "You are told again if another day is found."
        return Said(f"The visit planned for {words.day('gone')} will not take place", (line,), "visit is off")
    days = words.day("first")
    if facts["last"] > facts["first"]:
        days = f"{days} to {words.day('last')}"
    days = f"{days}, {words.away('first')}"
    work = f"The work takes about {time_words(int(facts['minutes']))} on the farm."
    if words.to.audience is Audience.SAMPLER and words.to.id == words.event.person:
        lines = [*words.moved, work, *words.where]
        if facts["locality"]:
            lines.append(f"Where: {facts['locality']}")
        if facts["contacts"]:
            lines.append(f"Call before you come: {'; '.join(facts['contacts'])}")
        return Said(
            f"You sample here on {days}", tuple(lines), "your visit has moved" if words.before else "your visit"
        )
    lines = [*words.moved, work]
    if words.to.audience is Audience.CONTACT:
        lines.append("Please tell us if stock, spraying or wet ground stand in the way.")
    short = "soil sampling visit has moved" if words.before else "soil sampling visit"
    return Said(f"{facts['who']} comes to take soil samples on {days}", (*lines, *words.where), short)


def _closing(words: Words) -> Said:
    lines = ["No visit is planned for it."]
    if "what" in words.facts:
        lines.append(f"Later samples come too late for a decision: {words.facts['what']}, on {words.day('decision')}.")
    return Said(
        f"Last day to sample in time: {words.day('last')}, {words.away('last')}",
        (*lines, *words.where),
        "last days to sample",
    )


def _spreading(words: Words) -> Said:
    head = f"Sample before the {words.material} planned for {words.day('spread')}"
    after = f"After it, sampling has to wait until {words.date('open_again')}"
    beyond = words.facts["open_again"] > words.facts["season_last"]
    after += ", when the season is over." if beyond else "."
    if "last" not in words.facts:
        head = f"The {words.material} planned for {words.day('spread')} leaves no day to sample"
        lines = [after]
        if "until" in words.facts:
            lines.append(f"If it is put off until the samples are taken, they can be taken up to {words.day('until')}.")
        return Said(head, (*words.moved, *lines, *words.where), "planned spreading leaves no day to sample")
    return Said(
        head,
        (*words.moved, f"{after} The last day to sample before it is {words.day('last')}.", *words.where),
        "sample before spreading",
    )


def _overdue(words: Words) -> Said:
    facts = words.facts
    lines = []
    if "visit" in facts:
        lines.append(f"A visit is planned for {words.day('visit')}.")
    elif "first" not in facts:
        lines.append("No day is open in the season to come either; the programme says what can be done.")
    elif facts["open"]:
        lines.append(f"It can be sampled now, until {words.day('last')}.")
    else:
        lines.append(f"The next days to sample are {words.day('first')} to {words.day('last')}.")
    months = int(facts["months"])
    late = f", {counted(months, 'month', 'months')} ago" if months else ""
    return Said(
        f"Sampling is overdue: the season ended on {words.date('ended')}{late}",
        (*lines, *words.where),
        "sampling overdue",
    )


def _decision(words: Words) -> Said:
    facts = words.facts
    lines = []
    unsampled, out = facts["unsampled"], facts["out"]
    if unsampled:
        lines.append(f"Not sampled yet: {joined(sorted(set(unsampled)))}.")
        if "visit" in facts:
            lines.append(f"A visit is planned for {words.day('visit')}.")
        if "last" in facts:
            lines.append(f"The last day to sample so that results are there is {words.day('last')}.")
        else:
            lines.append("Results of samples taken from now on come too late for it.")
    if out:
        lines.append(f"Sampled, results not back yet: {joined(sorted(set(out)))}.")
    if not unsampled and not out:
        lines.append("Nothing is missing: the samples that it needs were taken and their results are in.")
    return Said(
        f"Decision {words.away('decision')}: {facts['what']}, on {words.day('decision')}",
        (*words.moved, *lines),
        "decision is near",
    )


def _bags_out(words: Words) -> Said:
    facts = words.facts
    laboratory = facts["laboratory"] or "the laboratory"
    count = int(facts["count"])
    lines = [f"Sampled on {words.date('since')}; they were to be expected by {words.date('due')}.", *words.where]
    if facts["bags"]:
        lines.append(f"Bag ids: {', '.join(facts['bags'])}")
    return Said(
        f"Results of {counted(count, 'bag', 'bags')} are not back from {laboratory}",
        tuple(lines),
        "results not back from the laboratory",
    )


def _report(words: Words) -> Said:
    line = f"Signed by {words.facts['by']} on {words.date('signed')}."
    return Said("The farm report is ready", (line,), "farm report ready")


def _draft(words: Words) -> Said:
    lines = [f"It was last changed on {words.date('made')}. Nothing is sent to the client before you sign it."]
    if words.facts["signed_before"]:
        lines.append("It was signed before; since then this changed:")
    lines += [f"{one[:1].upper()}{one[1:]}" for one in words.facts["changed"]]
    return Said("A draft report waits for your signature", tuple(lines), "draft report to sign")


def _set_aside(words: Words) -> Said:
    facts = words.facts
    laboratory = f" from {facts['laboratory']}" if facts["laboratory"] else ""
    rows = int(facts["rows"])
    what = f"{counted(rows, 'row', 'rows')} of {facts['file']}" if rows else f"All of {facts['file']}"
    waits = "wait" if rows > 1 else "waits"
    line = f"The file{laboratory} came on {words.date('received')}. The reasons stand in intake.txt."
    return Said(f"{what} {waits} for somebody to look", (line,), "laboratory rows set aside")


def _laboratory_off(words: Words) -> Said:
    facts = words.facts
    lines = (
        f"Check samples have shown it since {words.date('since')}.",
        "Ask the laboratory before new results are relied on. The chart is in laboratory_checks.pdf.",
    )
    return Said(f"{facts['laboratory']} is off for {facts['analysis']}", lines, "check samples off")


_KINDS: dict[ReminderKind, Callable[[Words], Said]] = {
    ReminderKind.OPENS_SOON: _opens_soon,
    ReminderKind.BEST_DAY: _best_day,
    ReminderKind.VISIT: _visit,
    ReminderKind.CLOSING: _closing,
    ReminderKind.SPREADING: _spreading,
    ReminderKind.OVERDUE: _overdue,
    ReminderKind.DECISION: _decision,
    ReminderKind.BAGS_OUT: _bags_out,
    ReminderKind.REPORT: _report,
    ReminderKind.DRAFT: _draft,
    ReminderKind.SET_ASIDE: _set_aside,
    ReminderKind.LABORATORY_OFF: _laboratory_off,
}
