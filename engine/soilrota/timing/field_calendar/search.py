"""Better plans: parts of a draft solved again, one after the other, as long as the effort lasts."""

from __future__ import annotations

from dataclasses import dataclass, field
from random import Random

from soilrota.model.field_calendar import Effort
from soilrota.timing.field_calendar.draft import Draft
from soilrota.timing.field_calendar.frame import Slot
from soilrota.timing.field_calendar.greedy import may_split
from soilrota.timing.field_calendar.moves import settle
from soilrota.timing.field_calendar.neighbourhoods import one_sweep
from soilrota.timing.field_calendar.rounds import (
    Part,
    choices_now,
    choices_of,
    cost_of,
    part_of,
    solve_part,
    take,
    weights_of,
)

#: Choices of one model at most: of a whole calendar, of a part.
_MOST_IN_ALL = 20_000
_MOST_IN_PART = 8_000
#: Visits without a day that a part tries to place, at most.
_MOST_WAITING = 6
#: Deterministic time of one part at most [-].
_LIMIT_OF_PART = 0.5


@dataclass(frozen=True, slots=True)
class Whole:
    """What came of a whole calendar as one model: whether proven best, and the points that no calendar can beat."""

    proven: bool
    least_points: int


def solve_whole(draft: Draft, effort: Effort) -> Whole | None:
    """Make the draft the best that one model of the whole calendar finds; None where there is no such model.

    There is none where it would be too large, or where a visit is split over days: those have no place in it.
    """
    frame = draft.frame
    if any(may_split(frame, visit) for visit in range(len(frame.visits))):
        return None
    slots = [(person, day) for person, days in enumerate(frame.at_work) for day in days]
    part = Part(tuple(sorted(slots)), tuple(visit for visit in range(len(frame.visits)) if frame.able[visit]))
    choices = choices_of(frame, part, _MOST_IN_ALL)
    if choices is None:
        return None
    outcome = solve_part(draft, part, choices, effort.deterministic_time, effort.seed)
    if cost_of(frame, part, outcome.chosen) < cost_of(frame, part, choices_now(draft, part)):
        take(draft, part, outcome.chosen)
    weights = weights_of(frame, part)
    missing, rest = divmod(outcome.bound, weights.unplaced)
    missing += sum(visit.priority for visit, able in zip(frame.visits, frame.able, strict=True) if not able)
    return Whole(outcome.proven, missing * frame.unplaced_points + rest // weights.point)


def improve(draft: Draft, effort: Effort) -> None:
    """Solve parts of the draft again and keep what is better, until the effort is spent or nothing new is left."""
    settle(draft)
    search = _Search(draft, effort, Random(effort.seed))  # noqa: S311  # order of work, not secrets
    sweep = 0
    while search.goes_on and search.sweep(sweep):
        sweep += 1


@dataclass(slots=True)
class _Search:
    """The state of the search: what it has spent, and the parts that it need not solve again."""

    draft: Draft
    effort: Effort
    random: Random
    rounds: int = 0
    spent: float = 0.0
    settled: set[Part] = field(default_factory=set)

    @property
    def goes_on(self) -> bool:
        """Whether there is effort left."""
        return self.rounds < self.effort.rounds and self.spent < self.effort.deterministic_time

    def sweep(self, number: int) -> bool:
        """Solve the parts of one sweep; return whether any of them was new."""
        before = self.rounds
        for slots in one_sweep(self.draft, number, self.random):
            self.solve(slots)
            if not self.goes_on:
                break
        return self.rounds > before

    def solve(self, slots: tuple[Slot, ...]) -> None:
        """Solve a part, in halves where it is too large."""
        draft, frame = self.draft, self.draft.frame
        part = part_of(draft, slots, self.waiting(slots))
        if not part.visits or part in self.settled or not self.goes_on:
            return
        choices = choices_of(frame, part, _MOST_IN_PART)
        if choices is None:
            half = len(part.slots) // 2
            by_day = sorted(part.slots, key=lambda slot: (slot[1], slot[0]))
            for some in (by_day[:half], by_day[half:]):
                if half:
                    self.solve(tuple(some))
            return
        self.rounds += 1
        outcome = solve_part(draft, part, choices, _LIMIT_OF_PART, self.effort.seed)
        self.spent += outcome.spent
        if cost_of(frame, part, outcome.chosen) < cost_of(frame, part, choices_now(draft, part)):
            take(draft, part, outcome.chosen)
        if outcome.proven:
            self.settled.add(part)

    def waiting(self, slots: tuple[Slot, ...]) -> list[int]:
        """Return some visits without a day that a part could take, greater priority first."""
        frame, days = self.draft.frame, sum({1 << day for _, day in slots})
        found = [visit for visit in self.draft.unplaced() if frame.able[visit] and frame.open[visit] & days]
        self.random.shuffle(found)
        return sorted(found, key=lambda visit: -frame.visits[visit].priority)[:_MOST_WAITING]
