"""Which parts of a calendar are worth solving again: days of neighbours, days around visits that stand badly."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from soilrota.timing.field_calendar.draft import Draft
from soilrota.timing.field_calendar.frame import Frame, Slot
from soilrota.timing.field_calendar.moves import added_by

# The sizes are those that gained most in a given time on a random season (tests/benchmarks/bench_calendar.py).
_DAYS = 2
_PEOPLE = 3
_AROUND_ONE = 5
#: Visits of one sweep around which a part is made, of those that stand worst.
_WORST = 80


def one_sweep(draft: Draft, number: int, random: Random) -> Iterator[tuple[Slot, ...]]:
    """Yield persons and days that are worth solving together, for one sweep over the calendar.

    A few successive days of neighbours first, others from sweep to sweep; then the days around visits that wait, stand
    far from their preferred day, or cost much driving. The draft may change between two of them.

    Args:
        draft: the calendar.
        number: which sweep, from 0.
        random: for the order.
    """
    days = list(_days_of_neighbours(draft.frame, number))
    random.shuffle(days)
    yield from days
    for visit in _worst(draft)[:_WORST]:
        yield _around(draft, visit)


def _days_of_neighbours(frame: Frame, number: int) -> Iterator[tuple[Slot, ...]]:
    """Yield some successive days of each person with those of the nearest others; later sweeps take farther ones."""
    for person in range(len(frame.people)):
        others = sorted(set(range(len(frame.people))) - {person}, key=lambda one: _apart(frame, person, one))
        skipped = number // _DAYS % max(1, len(others) - _PEOPLE + 2)
        group = sorted([person, *others[skipped : skipped + _PEOPLE - 1]])
        for first in range(number % _DAYS, len(frame.days), _DAYS):
            days = range(first, min(first + _DAYS, len(frame.days)))
            slots = tuple((one, day) for one in group for day in days if day in frame.at_work[one])
            if slots:
                yield slots


def _apart(frame: Frame, person: int, other: int) -> tuple[float, int]:
    """Return how far apart two people's bases are, for sorting; then the number."""
    (lon, lat), (lon_other, lat_other) = frame.people[person].base, frame.people[other].base
    return (lon - lon_other) ** 2 + (lat - lat_other) ** 2, other


def _worst(draft: Draft) -> list[int]:
    """Return the visits that can move, those without a day first, then by points and by the driving that each adds."""
    frame = draft.frame
    waiting = [visit for visit in draft.unplaced() if frame.able[visit]]
    placed = sorted(draft.home, key=lambda visit: (-draft.points(visit), -added_by(draft, visit), visit))
    return [*waiting, *placed]


def _around(draft: Draft, visit: int) -> tuple[Slot, ...]:
    """Return the visit's own person and day, and those at least as good for it that pass nearest to it."""
    frame = draft.frame
    own = draft.home.get(visit)
    most = draft.points(visit) if own else max(frame.points[visit].values())
    slots = [
        (person, day)
        for day, points in frame.points[visit].items()
        if points <= most
        for person in frame.able[visit]
        if day in frame.at_work[person] and (person, day) != own
    ]
    nearest = sorted(slots, key=lambda slot: (_passes(draft, slot, visit), slot))[: _AROUND_ONE - 1]
    return (*([own] if own else []), *nearest)


def _passes(draft: Draft, slot: Slot, visit: int) -> int:
    """Return how near a person passes to a visit on a day [min]: at a farm, or at the base."""
    roads = draft.frame.roads
    farms = (roads.between(visit, other) for other in draft.slots.get(slot, ()))
    return min((*farms, roads.there_and_back(slot[0], visit) // 2))
