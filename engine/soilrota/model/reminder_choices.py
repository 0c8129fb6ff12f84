"""When a practice reminds whom of what: kinds of reminders, who is told, lead times."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum


class ReminderKind(StrEnum):
    """What a reminder speaks of."""

    OPENS_SOON = "opens-soon"
    BEST_DAY = "best-day"
    VISIT = "visit"
    CLOSING = "closing"
    SPREADING = "spreading"
    OVERDUE = "overdue"
    DECISION = "decision"
    BAGS_OUT = "bags-out"
    REPORT = "report"
    DRAFT = "draft"
    SET_ASIDE = "set-aside"
    LABORATORY_OFF = "laboratory-off"


class Audience(StrEnum):
    """What a person is to the farm that a reminder speaks of."""

    CONTACT = "contact"
    SAMPLER = "sampler"
    ADVISER = "adviser"
    OFFICE = "office"


#: Who is told of what unless the practice, or the person's own entry, says otherwise. House default.
WHO_GETS: Mapping[Audience, frozenset[ReminderKind]] = {
    Audience.CONTACT: frozenset(
        {
            ReminderKind.OPENS_SOON,
            ReminderKind.BEST_DAY,
            ReminderKind.VISIT,
            ReminderKind.CLOSING,
            ReminderKind.SPREADING,
            ReminderKind.OVERDUE,
            ReminderKind.DECISION,
            ReminderKind.REPORT,
        }
    ),
    Audience.SAMPLER: frozenset({ReminderKind.VISIT}),
    Audience.ADVISER: frozenset(
        {
            ReminderKind.BEST_DAY,
            ReminderKind.CLOSING,
            ReminderKind.SPREADING,
            ReminderKind.OVERDUE,
            ReminderKind.DECISION,
            ReminderKind.REPORT,
            ReminderKind.DRAFT,
        }
    ),
    Audience.OFFICE: frozenset({ReminderKind.BAGS_OUT, ReminderKind.SET_ASIDE, ReminderKind.LABORATORY_OFF}),
}


@dataclass(frozen=True, slots=True)
class LeadTimes:
    """How long before a day it is spoken of, and when the same is said again; all house defaults.

    Attributes:
        opens_days: before the first day of a window [d].
        best_day_days: before the preferred day, and before a planned visit [d].
        closing_days: before the last day in time [d].
        spreading_days: before a planned spreading that would close a window [d].
        decision_days: before a decision [d].
        overdue_again_days: from one reminder that a sampling is overdue to the next [d].
        bags_late_days: after the day on which results were to be expected [d].
        bags_again_days: from one reminder of bags that are not back to the next [d].
        set_aside_again_days: from one reminder of rows set aside to the next [d].
        draft_apart_days: from one draft that an adviser is told of to the next, changed one [d].
        moved_days: a preferred day that moved by no more is not told of again [d].
    """

    opens_days: int = 21
    best_day_days: int = 7
    closing_days: int = 14
    spreading_days: int = 28
    decision_days: int = 28
    overdue_again_days: int = 60
    bags_late_days: int = 3
    bags_again_days: int = 14
    set_aside_again_days: int = 7
    draft_apart_days: int = 7
    moved_days: int = 3


@dataclass(frozen=True, slots=True)
class ReminderChoices:
    """The practice's choices about reminders.

    Attributes:
        times: lead times.
        gets: kinds that each audience is told of.
        attachments_mb: files of one message together at most [MB].
        alarm_hours: a calendar's alarm, before midnight at which the day begins [h].
        asked_for: whether the practice's file speaks of reminders at all.
    """

    times: LeadTimes = LeadTimes()
    gets: Mapping[Audience, frozenset[ReminderKind]] = field(default_factory=lambda: dict(WHO_GETS))
    attachments_mb: float = 8.0
    alarm_hours: int = 6
    asked_for: bool = False
