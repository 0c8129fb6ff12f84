"""When to sample: what the window engine is asked, and its answer with the reasons as data."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import NamedTuple

from soilrota.model.applications import Application
from soilrota.model.moisture import MoistureOutlook
from soilrota.model.practice import AnalysisWait, Laboratory, MonthDaySpan
from soilrota.problems import Place

#: A fact that a reason carries; words are made of it at the edge.
Fact = str | int | float | date | tuple[str, ...]


@dataclass(frozen=True, slots=True, order=True)
class Span:
    """Days from `first` to `last`, both included; `first` is never after `last`."""

    first: date
    last: date

    @property
    def days(self) -> int:
        """Number of days [d]."""
        return (self.last - self.first).days + 1

    def __contains__(self, day: object) -> bool:
        """Return whether the day lies in the span."""
        return isinstance(day, date) and self.first <= day <= self.last

    @property
    def label(self) -> str:
        """The year, `2027`, or both years where the span has days of two, `2026/27`."""
        first, last = self.first.year, self.last.year
        return str(first) if first == last else f"{first}/{last % 100:02d}"

    def meets(self, other: Span) -> bool:
        """Return whether the spans have a day in common."""
        return self.first <= other.last and other.first <= self.last

    def distance(self, day: date) -> int:
        """Return the days [d] from `day` to the nearest day of the span; 0 inside."""
        if day < self.first:
            return (self.first - day).days
        return (day - self.last).days if day > self.last else 0

    def nearest(self, day: date) -> date:
        """Return the day of the span that is nearest to `day`."""
        if day < self.first:
            return self.first
        return min(day, self.last)

    @property
    def middle(self) -> date:
        """The middle day; the earlier of two."""
        return date.fromordinal((self.first.toordinal() + self.last.toordinal()) // 2)


@dataclass(frozen=True, slots=True)
class TaskKey:
    """Names a task: a zone of a farm under a protocol."""

    farm: str
    zone: str
    protocol: str


@dataclass(frozen=True, slots=True)
class AppliedGap:
    """An application that touches the task, with the waiting time that holds for this task.

    Attributes:
        application: the row of the log.
        counts: whether its class closes days.
        months: calendar months to wait [month].
        override_reason: the client's written reason, where the client's file sets the waiting time; else empty.
        override_place: where the override stands; None without one.
        usual_months: calendar months to wait without the override [month]; 0 where its class does not count.
        class_reason: why the class does not count; empty where it counts.
    """

    application: Application
    counts: bool
    months: int
    override_reason: str = ""
    override_place: Place | None = None
    usual_months: int = 0
    class_reason: str = ""


@dataclass(frozen=True, slots=True)
class Sampling:
    """One day on which the task was sampled.

    Attributes:
        day: day of sampling.
        reported: earliest day on which an accepted result of it was reported; None while bags are out.
        bags: bag ids; may be empty.
        place: the record.
        awaited: whether results are to be expected in the book; False for a sampling from before its records.
    """

    day: date
    reported: date | None
    bags: tuple[str, ...]
    place: Place
    awaited: bool = True


@dataclass(frozen=True, slots=True)
class Closure:
    """Days on which nobody samples whatever was spread: the practice is away, or the client asked to be left alone.

    Attributes:
        kind: `leave` (the practice is away) or `blackout` (the client's harvest, lambing, re-entry after spraying …).
        span: the days, both ends included.
        reason: why, in words.
        place: where it is declared.
    """

    kind: str
    span: Span
    reason: str
    place: Place


@dataclass(frozen=True, slots=True)
class WorkCalendar:
    """On which days the practice samples at a client's.

    Attributes:
        weekdays: ISO weekdays worked (1 Monday to 7 Sunday).
        country: ISO 3166-1 alpha-2 code whose public holidays are kept; empty for none.
        subdivision: ISO 3166-2 subdivision without the country; may be empty.
        closures: leave and blackout spans, in any order.
    """

    weekdays: tuple[int, ...] = (1, 2, 3, 4, 5, 6, 7)
    country: str = ""
    subdivision: str = ""
    closures: tuple[Closure, ...] = ()


@dataclass(frozen=True, slots=True)
class DecisionDay:
    """The day by which results must be there, and what is decided on it."""

    day: date
    what: str
    place: Place


@dataclass(frozen=True, slots=True)
class Task:
    """Everything that the window of one task depends on, except the as-of date.

    Attributes:
        key: which task.
        season: id of its season.
        seasons: month-day spans of the season on the client's hemisphere.
        interval_months: calendar months between samplings [month].
        tolerance_days: distance from the anniversary within which results compare [d].
        samplings: days of all samplings known, with their results, in order of day; those after the as-of date
            are ignored.
        applications: those that touch the zone.
        analysis_waits: longer waits for some analyses of this protocol.
        place: where the task is declared.
        calendar: days on which the practice samples there.
        laboratory: where the samples go; None when no laboratory is named.
        holding_days: shortest holding time of the analyses, from sampling to receipt [d]; None where none has one.
        decisions: days on which results must be there, in any order.
        moisture: how likely each calendar day finds the wanted soil; None without weather.
    """

    key: TaskKey
    season: str
    seasons: tuple[MonthDaySpan, ...]
    interval_months: int
    tolerance_days: int
    samplings: tuple[Sampling, ...]
    applications: tuple[AppliedGap, ...]
    analysis_waits: tuple[AnalysisWait, ...]
    place: Place
    calendar: WorkCalendar = field(default_factory=WorkCalendar)
    laboratory: Laboratory | None = None
    holding_days: int | None = None
    decisions: tuple[DecisionDay, ...] = ()
    moisture: MoistureOutlook | None = None


class State(StrEnum):
    """Where a task stands on the as-of date, in words of our own."""

    OPEN_TODAY = "open-today"
    OPENS_LATER = "opens-later"
    LAST_DAYS = "last-days"
    LATE_FOR_DECISION = "late-for-decision"
    OVERDUE = "overdue"
    NO_DAY_LEFT = "no-day-left"
    NOT_KNOWN = "not-known"
    BAGS_OUT = "bags-out"
    RESULTS_IN = "results-in"


class Rule(StrEnum):
    """The rule that a reason speaks of."""

    SEASON = "season"
    NEVER_SAMPLED = "never-sampled"
    DUE_SEASON = "due-season"
    OVERDUE = "overdue"
    SAMPLED = "sampled"
    SPREAD = "spread"
    SPREAD_PLANNED = "spread-planned"
    PLAN_HAS_PASSED = "plan-has-passed"
    SPREAD_UNDATED = "spread-undated"
    SPREAD_NO_ZONE = "spread-no-zone"
    GAP_OVERRIDE = "gap-override"
    CLASS_DOES_NOT_COUNT = "class-does-not-count"
    ANALYSIS_WAIT = "analysis-wait"
    ANNIVERSARY = "anniversary"
    MIDDLE_OF_SEASON = "middle-of-season"
    OUTSIDE_TOLERANCE = "outside-tolerance"
    BEST_DAY_PASSED = "best-day-passed"
    LEAVE = "leave"
    BLACKOUT = "blackout"
    WORKED_DAYS = "worked-days"
    HOLDING = "holding"
    DECISION = "decision"
    LATE = "late"
    MOISTURE = "moisture"


#: Of a reason without facts.
_NO_FACTS: Mapping[str, Fact] = {}


class Reason(NamedTuple):
    """Why the answer is what it is; a named tuple, because a window has many and a frozen class is slow to build.

    Attributes:
        rule: which rule speaks.
        place: the record that caused it; None where only the calendar did.
        taken: the days of the due season that it took; empty where it took none.
        facts: what words are made of, by name.
    """

    rule: Rule
    place: Place | None = None
    taken: tuple[Span, ...] = ()
    facts: Mapping[str, Fact] = _NO_FACTS


class WayOutKind(StrEnum):
    """Kinds of ways out of a season that has no day left."""

    BEFORE_PLANNED = "before-planned"
    AFTER_GAP = "after-gap"
    NEXT_SEASON = "next-season"
    MOVE_PLANNED = "move-planned"


@dataclass(frozen=True, slots=True)
class WayOut:
    """A way out where the due season has no open day left.

    Attributes:
        kind: which kind.
        spans: days on which sampling would be possible.
        best: the best of them.
        days_out_of_season: distance of `best` from the season of the answer [d]; 0 inside, and for the next season.
        months_late: whole months from the last day of the season first due to `best` [month]; 0 when not late.
        places: the records that would have to give way; empty where none.
    """

    kind: WayOutKind
    spans: tuple[Span, ...]
    best: date
    days_out_of_season: int
    months_late: int
    places: tuple[Place, ...] = ()


@dataclass(frozen=True, slots=True)
class SeasonOccurrence:
    """A season in one year: `name` is the season's id, `span` its days, both ends included."""

    name: str
    span: Span

    @property
    def label(self) -> str:
        """`2027`, or `2026/27` where the season wraps the year end."""
        return self.span.label


class Window(NamedTuple):
    """The answer for one task on one as-of date; a named tuple for the reason of `Reason`.

    Attributes:
        key: which task.
        state: where it stands.
        season: the season the answer is about (the due one, or the next when overdue).
        due: the season in which the task was first due; equals `season` unless overdue.
        season_open: open days of the whole season, those already past included; sorted and disjoint.
        open: open days from the as-of date on; sorted and disjoint.
        preferred: the best of `on_time`; None where there is none or the answer is not known.
        target: the day aimed at: the anniversary moved into the season, or the season's middle.
        anniversary: the anniversary of the last sampling nearest to the season; None when never sampled.
        last_sampling: last sampling on or before the as-of date, `reported` only where that was known by then;
            None when never sampled.
        overdue_months: whole months since the due season ended [month]; None when not overdue.
        closed: days of the season that applications, leave and blackouts took, each with the record's place.
        waiting_analyses: analyses that are not ready on the preferred day: (analyte id, first day it is ready).
        reasons: in the order in which they decided.
        ways_out: where no open day is left.
        holds_until: last as-of date on which, with the same records, the same answer stands except for days that
            have passed; the as-of date itself at least.
        workable: days of `open` on which the practice works and a bag reaches the laboratory in its holding time.
        on_time: days of `workable` on or before the last useful day.
        decision: the decision that the results are for; None where none lies ahead of the season.
        last_useful: last day of sampling whose results are there for the decision; None without a decision.
    """

    key: TaskKey
    state: State
    season: SeasonOccurrence
    due: SeasonOccurrence
    season_open: tuple[Span, ...]
    open: tuple[Span, ...]
    preferred: date | None
    target: date
    anniversary: date | None
    last_sampling: Sampling | None
    overdue_months: int | None
    closed: tuple[tuple[Span, Place], ...]
    waiting_analyses: tuple[tuple[str, date], ...]
    reasons: tuple[Reason, ...]
    ways_out: tuple[WayOut, ...]
    holds_until: date
    workable: tuple[Span, ...] = ()
    on_time: tuple[Span, ...] = ()
    decision: DecisionDay | None = None
    last_useful: date | None = None
