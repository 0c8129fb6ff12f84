"""A plan in the making: which visits each person makes on each day."""

from __future__ import annotations

from dataclasses import dataclass, field

from soilrota.model.field_calendar import CalendarScore
from soilrota.timing.field_calendar.frame import Frame, Slot


@dataclass(slots=True)
class Draft:
    """A plan that can still change.

    Attributes:
        frame: what it plans.
        slots: visits of each person and day, in order of number; only where there are some.
        home: person and day of each visit that is made within one day.
        splits: parts of each long visit: person and day, minutes [min].
        blocked: persons and days that a long visit has for itself.
    """

    frame: Frame
    slots: dict[Slot, tuple[int, ...]] = field(default_factory=dict)
    home: dict[int, Slot] = field(default_factory=dict)
    splits: dict[int, tuple[tuple[Slot, int], ...]] = field(default_factory=dict)
    blocked: set[Slot] = field(default_factory=set)

    def put(self, slot: Slot, visits: tuple[int, ...]) -> None:
        """Make these the visits of a person and day."""
        for visit in self.slots.pop(slot, ()):
            if self.home.get(visit) == slot:
                del self.home[visit]
        if visits:
            self.slots[slot] = visits
            self.home.update(dict.fromkeys(visits, slot))

    def split(self, visit: int, parts: tuple[tuple[Slot, int], ...]) -> None:
        """Give a long visit its days."""
        self.splits[visit] = parts
        self.blocked.update(slot for slot, _ in parts)

    def day_of(self, visit: int) -> int | None:
        """Return the number of the day on which a visit is complete; None where it has no day."""
        if visit in self.splits:
            return self.splits[visit][-1][0][1]
        return self.home[visit][1] if visit in self.home else None

    def points(self, visit: int) -> int:
        """Return the points of a placed visit: of a long one those of its last day."""
        day = self.day_of(visit)
        assert day is not None  # asked of placed visits only
        return self.frame.points[visit][day]

    def unplaced(self) -> list[int]:
        """Return the visits without a day."""
        return [visit for visit in range(len(self.frame.visits)) if self.day_of(visit) is None]

    def travel(self, slot: Slot) -> int:
        """Return the minutes of driving of a person on a day [min]."""
        return self.frame.roads.round_minutes(slot[0], self.slots.get(slot, ()))

    def score(self) -> CalendarScore:
        """Return how good the plan is."""
        placed = [*self.home, *self.splits]
        travel = sum(self.travel(slot) for slot in self.slots)
        travel += sum(
            self.frame.roads.there_and_back(person, visit)
            for visit, parts in self.splits.items()
            for (person, _), _ in parts
        )
        missing = sum(self.frame.visits[visit].priority for visit in self.unplaced())
        return CalendarScore(missing, sum(self.points(visit) for visit in placed), travel)
