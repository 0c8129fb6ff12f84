"""Applications close days: from the first day of spreading until the gap has passed.

An application closes the days from its first day up to, not including, the day that corresponds to its last day
plus the gap in calendar months: on that day 'at least three months' is met. House defaults, where the rules leave it
open:

| record | what it closes |
|---|---|
| cancelled, or of a class that does not count | nothing |
| done, its first day still ahead of the as-of date | as if planned |
| planned, its last day before the as-of date | the same days, and `plan-has-passed` is said |
| last day known, first day not ('at the latest on') | everything up to the end of the gap |
| last day not known | no day is certain: the answer is `not-known` |
| gap of 0 months | the days of spreading themselves |
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import NamedTuple

from soilrota.model.applications import Application, Standing
from soilrota.model.windows import AppliedGap, Closure, Fact, Reason, Rule, Span, Task
from soilrota.problems import Place
from soilrota.timing.months import add_months
from soilrota.timing.spans import ONE_DAY


class Closing(NamedTuple):
    """Days that one record closes.

    Most closings of a log take no day of the season asked about, so the reason and its facts are made when asked for.

    Attributes:
        span: the days.
        rule: by which rule.
        record: what closes them.
        place: where it stands.
        begins: first day of what closes them; None when not known.
        can_move: whether it lies ahead and a person could still put it elsewhere.
        reads_until: last as-of date on which it reads like this; `date.max` when for good.
        has_passed: whether it is a plan of which the days are over.
    """

    span: Span
    rule: Rule
    record: AppliedGap | Closure
    place: Place
    begins: date | None
    can_move: bool
    reads_until: date
    has_passed: bool = False

    @property
    def reason(self) -> Reason:
        """Why, without the days that it took of a season."""
        return self.reason_for(())

    def reason_for(self, taken: tuple[Span, ...]) -> Reason:
        """Return why, with the days that it took of a season."""
        record = self.record
        if isinstance(record, Closure):
            return Reason(self.rule, self.place, taken, {"reason": record.reason})
        facts = dated_facts(record.application)
        facts["months"], facts["open_again"] = record.months, self.span.last + ONE_DAY
        return Reason(self.rule, self.place, taken, facts)

    @property
    def notes(self) -> tuple[Reason, ...]:
        """What must be said with it."""
        record = self.record
        if isinstance(record, Closure):
            return ()
        notes = (*no_zone_note(record), *override_note(record))
        if not self.has_passed:
            return notes
        return Reason(Rule.PLAN_HAS_PASSED, self.place, facts=dated_facts(record.application)), *notes


# Looked up once: a member of an enumeration takes ten times as long as a name of the module.
_CANCELLED, _PLANNED = Standing.CANCELLED, Standing.PLANNED
_SPREAD, _SPREAD_PLANNED = Rule.SPREAD, Rule.SPREAD_PLANNED
_FOR_GOOD = date.max
_RULE_OF_CLOSURE = {"leave": Rule.LEAVE, "blackout": Rule.BLACKOUT}

Closer = Callable[[Task, date], tuple[Closing, ...]]


def closings_of(task: Task, as_of: date) -> tuple[Closing, ...]:
    """Return everything that closes days of the task, as seen on the as-of date, by days and place."""
    found: list[Closing] = []
    for closer in CLOSERS:
        found += closer(task, as_of)
    if len(found) > 1:
        found.sort(key=_by_days_and_place)
    return tuple(found)


def _by_days_and_place(closing: Closing) -> tuple[date, date, str, Place]:
    """Return what closings are sorted by."""
    span = closing.span
    return span.first, span.last, closing.rule, closing.place


def application_closings(task: Task, as_of: date) -> tuple[Closing, ...]:
    """Return the days that applications close; those without a date are in `undated`."""
    return tuple(
        [
            _closing(record, last_day, as_of)
            for record in task.applications
            if (last_day := record.application.last_day) is not None and closes(record)
        ]
    )


def closure_closings(task: Task, _: date) -> tuple[Closing, ...]:
    """Return the days of leave and blackouts; nobody can move them here, and they read the same for good."""
    closures = task.calendar.closures
    if not closures:
        return ()
    return tuple(
        [
            Closing(
                closure.span,
                _RULE_OF_CLOSURE[closure.kind],
                closure,
                closure.place,
                closure.span.first,
                can_move=False,
                reads_until=_FOR_GOOD,
            )
            for closure in closures
        ]
    )


#: All ways of closing days.
CLOSERS: tuple[Closer, ...] = (application_closings, closure_closings)


def closes(record: AppliedGap) -> bool:
    """Return whether the application closes days at all."""
    return record.counts and record.application.standing is not _CANCELLED


def closes_until(record: AppliedGap) -> date | None:
    """Return the last day that an application closes; None where it closes none, or its last day is not known."""
    application = record.application
    if not closes(record) or application.last_day is None:
        return None
    return closed_span(application.first_day, application.last_day, record.months).last


def undated(task: Task) -> tuple[AppliedGap, ...]:
    """Return the applications that close days of which the date is not known, by place."""
    found = [record for record in task.applications if record.application.last_day is None and closes(record)]
    return tuple(sorted(found, key=lambda record: record.application.place)) if found else ()


def closed_span(first_day: date | None, last_day: date, months: int) -> Span:
    """Return the days that spreading from `first_day` to `last_day` closes under a gap of `months` [month].

    All days before it are closed too when the first day is not known.
    """
    first = date.min if first_day is None else first_day
    return Span(first, add_months(last_day, months) - ONE_DAY if months > 0 else last_day)


def _closing(record: AppliedGap, last_day: date, as_of: date) -> Closing:
    """Return the days that one dated application closes."""
    application = record.application
    first_day = application.first_day
    planned = application.standing is _PLANNED
    claimed_early = not planned and first_day is not None and first_day > as_of
    passed = planned and last_day < as_of
    reads_until = _FOR_GOOD
    if first_day is not None and claimed_early:
        reads_until = first_day - ONE_DAY
    elif planned and not passed:
        reads_until = last_day
    return Closing(
        closed_span(first_day, last_day, record.months),
        _SPREAD_PLANNED if planned or claimed_early else _SPREAD,
        record,
        application.place,
        first_day,
        (planned and not passed) or claimed_early,
        reads_until,
        has_passed=passed,
    )


def no_zone_note(record: AppliedGap) -> tuple[Reason, ...]:
    """Return a note where the application names no zone and is taken to touch the whole farm."""
    application = record.application
    if application.zones:
        return ()
    facts = {**material_facts(application), "farm": application.farm}
    return (Reason(Rule.SPREAD_NO_ZONE, application.place, facts=facts),)


def override_note(record: AppliedGap) -> tuple[Reason, ...]:
    """Return a note where the client's file sets the waiting time."""
    if not record.override_reason:
        return ()
    facts = {
        **material_facts(record.application),
        "months": record.months,
        "usual_months": record.usual_months,
        "reason": record.override_reason,
    }
    return (Reason(Rule.GAP_OVERRIDE, record.override_place, facts=facts),)


def material_facts(application: Application) -> dict[str, Fact]:
    """Return what was spread: `class` and `material`."""
    return {"class": application.material_class, "material": application.material}


def dated_facts(application: Application) -> dict[str, Fact]:
    """Return what was spread and when: `first_day` and `last_day` only where known."""
    facts = material_facts(application)
    if application.first_day is not None:
        facts["first_day"] = application.first_day
    if application.last_day is not None:
        facts["last_day"] = application.last_day
    return facts
