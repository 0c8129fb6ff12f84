"""The field calendar: visits of all clients on the days of the people, what is left over, how good the plan is."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from soilrota.model.ground import Position
from soilrota.model.visits import WorkMinutes
from soilrota.model.windows import Span


@dataclass(frozen=True, slots=True)
class TravelFigures:
    """How driving is reckoned from places on the map.

    Attributes:
        detour: length of road to great-circle distance [-].
        speed_km_h: mean speed [km/h].
        unknown_one_way_minutes: one way between a base and a farm of which the place is not known [min].
    """

    detour: float
    speed_km_h: float
    unknown_one_way_minutes: int


@dataclass(frozen=True, slots=True)
class PlanningRules:
    """House rules of the field calendar.

    Attributes:
        free_days: distance from the preferred day that costs nothing, so that neighbours can share a drive [d].
        late_points: points of a visit after its last useful day, besides one point a day [-].
        most_farms_a_day: visits of one person on one day [-].
        longest_split_days: working days over which one long visit may be split [d].
        longest_pause_days: days off between two parts of a split visit [d].
    """

    free_days: int
    late_points: int
    most_farms_a_day: int
    longest_split_days: int
    longest_pause_days: int


@dataclass(frozen=True, slots=True)
class FieldWork:
    """The figures that field work is planned with, and where they come from."""

    minutes: WorkMinutes
    travel: TravelFigures
    planning: PlanningRules
    source: str


@dataclass(frozen=True, slots=True)
class VisitToPlace:
    """A visit that wants a person and a day.

    Attributes:
        id: its id, unique in the calendar.
        client, farm: whose farm.
        position: where the crew starts there [degree]; None when not known.
        minutes: work on the farm [min].
        spans: days on which it may be made; any order.
        preferred: the day aimed at.
        last_useful: last day that is not late; None without one.
        priority: weight of its being placed, 1 or more [-].
        people: ids of those who may make it; empty for everyone.
    """

    id: str
    client: str
    farm: str
    position: Position | None
    minutes: int
    spans: tuple[Span, ...]
    preferred: date
    last_useful: date | None = None
    priority: int = 1
    people: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Crew:
    """A person who samples.

    Attributes:
        id, name: who.
        base: where the day starts and ends [degree].
        minutes_a_day: work and driving of one day at most [min].
        weekdays: ISO weekdays worked (1 Monday to 7 Sunday).
        leave: days away.
        longest_way_km: longest way by road from the base to a farm [km]; None for no limit.
    """

    id: str
    name: str
    base: Position
    minutes_a_day: int
    weekdays: tuple[int, ...] = (1, 2, 3, 4, 5)
    leave: tuple[Span, ...] = ()
    longest_way_km: float | None = None


@dataclass(frozen=True, slots=True)
class CalendarInputs:
    """What a field calendar is made of: visits, people, days off of the whole practice, figures."""

    visits: tuple[VisitToPlace, ...]
    crew: tuple[Crew, ...]
    closures: tuple[Span, ...]
    figures: FieldWork


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard the solver tries, in units that are the same on every machine.

    Attributes:
        deterministic_time: CP-SAT's deterministic time for the whole calendar [-].
        rounds: parts of the calendar that are solved again at most [-].
        seed: seed of the solver and of the choice of parts.
    """

    deterministic_time: float = 20.0
    rounds: int = 2000
    seed: int = 1


@dataclass(frozen=True, slots=True)
class Stop:
    """One farm on one person's day; `part` of `parts` where a long visit is split over days, minutes of work [min]."""

    visit: str
    minutes: int
    part: int
    parts: int


@dataclass(frozen=True, slots=True)
class PersonDay:
    """One day of one person: stops in driving order, work [min], driving from base to base [min], its length [km]."""

    person: str
    day: date
    stops: tuple[Stop, ...]
    work_minutes: int
    travel_minutes: int
    travel_km: float


class WhyUnplaced(StrEnum):
    """Why a visit has no day."""

    NO_OPEN_DAY = "no-open-day"
    ONLY_CLOSED_DAYS = "only-closed-days"
    NOBODY_QUALIFIED = "nobody-qualified"
    TOO_FAR = "too-far"
    TOO_LONG = "too-long"
    NOBODY_AT_WORK = "nobody-at-work"
    NO_RUN_OF_DAYS = "no-run-of-days"
    DAYS_FULL = "days-full"


class WhyLate(StrEnum):
    """Why a visit stands after its last useful day."""

    OPENS_LATE = "opens-late"
    NOBODY_EARLIER = "nobody-earlier"
    EARLIER_DAYS_FULL = "earlier-days-full"


@dataclass(frozen=True, slots=True)
class UnplacedVisit:
    """A visit without a day, and why."""

    visit: str
    reason: WhyUnplaced


@dataclass(frozen=True, slots=True)
class LateVisit:
    """A visit after its last useful day: its last day, days late [d], and why."""

    visit: str
    day: date
    days: int
    reason: WhyLate


@dataclass(frozen=True, slots=True, order=True)
class CalendarScore:
    """How good a calendar is; smaller is better, compared field by field.

    Attributes:
        unplaced: priorities of the visits without a day, added up [-].
        points: days away from the preferred days beyond the free ones, and those of late visits, added up [-].
        travel_minutes: driving [min].
    """

    unplaced: int
    points: int
    travel_minutes: int


class LeftOut(StrEnum):
    """What the model behind a bound leaves out, so that the bound may be below what can be reached.

    `drives-shared`: a visit takes only the share of driving that it has in every calendar; `distant-days-free`: days
    far from the preferred one take no time; `long-visits-free`: split visits take no time; `travel-not-bounded`:
    nothing is said about driving.
    """

    DRIVES_SHARED = "drives-shared"
    DISTANT_DAYS_FREE = "distant-days-free"
    LONG_VISITS_FREE = "long-visits-free"
    TRAVEL_NOT_BOUNDED = "travel-not-bounded"


@dataclass(frozen=True, slots=True)
class Proof:
    """How far a calendar can be from the best.

    Attributes:
        objective: points of the calendar, with `unplaced_points` for every unit of unplaced priority; the calendar is
            also a solution of the bound's model.
        bound: no calendar has fewer.
        gap: (objective - bound) / objective [-]; 0 where the objective is 0.
        unplaced_points: points of one unit of unplaced priority: more than all days together can cost.
        exact: whether one model held the whole calendar and proved it best, driving included.
        leaves_out: what the bound's model leaves out; empty when one model held the whole calendar.
    """

    objective: int
    bound: int
    gap: float
    unplaced_points: int
    exact: bool
    leaves_out: tuple[LeftOut, ...]


@dataclass(frozen=True, slots=True)
class FieldCalendar:
    """All visits on the days of the people.

    Attributes:
        days: person-days with at least one stop, by day, then person.
        late: visits after their last useful day.
        unplaced: visits without a day.
        score: how good it is.
        greedy_score: how good the plan was that it started from; never better.
        proof: how far from the best it can be.
    """

    days: tuple[PersonDay, ...]
    late: tuple[LateVisit, ...]
    unplaced: tuple[UnplacedVisit, ...]
    score: CalendarScore
    greedy_score: CalendarScore
    proof: Proof


@dataclass(frozen=True, slots=True)
class CalendarWeek:
    """One week of the calendar: its Monday, and for every person seven cells, None where nothing is planned."""

    monday: date
    people: tuple[tuple[str, tuple[PersonDay | None, ...]], ...]


@dataclass(frozen=True, slots=True)
class VisitLabel:
    """What people call a visit: the client, the farm, its zones."""

    client: str
    farm: str
    zones: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlannedCalendar:
    """A calendar with everything that is printed of it.

    Attributes:
        calendar: the plan.
        inputs: what it was made of.
        weeks: the plan week by week.
        labels: what people call each visit, by its id.
        from_day: first day that was planned for.
    """

    calendar: FieldCalendar
    inputs: CalendarInputs
    weeks: tuple[CalendarWeek, ...]
    labels: dict[str, VisitLabel]
    from_day: date
