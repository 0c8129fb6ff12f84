"""Quick betterment of a plan: one visit moved, or two visits exchanged, as long as that makes the plan better."""

from __future__ import annotations

from soilrota.timing.field_calendar.draft import Draft
from soilrota.timing.field_calendar.frame import Slot
from soilrota.timing.field_calendar.greedy import added_driving

#: Points, driving [min]; compared in this order.
_Cost = tuple[int, int]


def settle(draft: Draft, sweeps: int = 20) -> None:
    """Move and exchange visits until no single move or exchange makes the plan better.

    Args:
        draft: the plan.
        sweeps: passes over all visits at most [-].
    """
    visits = [visit for visit, able in enumerate(draft.frame.able) if able]
    for _ in range(sweeps):
        changes = sum(_move(draft, visit) for visit in visits)
        if not changes:
            changes = sum(_exchange(draft, visit) for visit in visits)
        if not changes:
            return


def added_by(draft: Draft, visit: int) -> int:
    """Return the driving that goes when a visit is taken out of its day [min]."""
    slot = draft.home[visit]
    rest = tuple(other for other in draft.slots[slot] if other != visit)
    return draft.travel(slot) - draft.frame.roads.round_minutes(slot[0], rest)


def _move(draft: Draft, visit: int) -> bool:
    """Move a visit to where it costs least, if that is better than where it is; return whether it moved."""
    frame, own = draft.frame, draft.home.get(visit)
    best: tuple[_Cost, Slot] | None = None
    limit = None if own is None else (draft.points(visit), added_by(draft, visit))
    for day, points in frame.points[visit].items():
        if limit is not None and points > limit[0]:
            continue
        for person in frame.able[visit]:
            added = None if (person, day) == own else added_driving(draft, (person, day), visit)
            if added is None or (limit is not None and (points, added) >= limit):
                continue
            found = (points, added), (person, day)
            if best is None or found < best:
                best = found
    if best is None:
        return False
    if own is not None:
        draft.put(own, tuple(other for other in draft.slots[own] if other != visit))
    draft.put(best[1], tuple(sorted((*draft.slots.get(best[1], ()), visit))))
    return True


def _exchange(draft: Draft, visit: int) -> bool:
    """Exchange a visit with the other one that makes the plan best; return whether any made it better."""
    own = draft.home.get(visit)
    if own is None:
        return False
    frame = draft.frame
    best: tuple[_Cost, Slot, int] | None = None
    for day, points in frame.points[visit].items():
        for person in frame.able[visit]:
            slot = (person, day)
            for other in draft.slots.get(slot, ()) if slot != own else ():
                back = frame.points[other].get(own[1])
                if back is None or own[0] not in frame.able[other]:
                    continue
                change = points + back - draft.points(visit) - draft.points(other)
                driving = _exchange_driving(draft, (visit, own), (other, slot)) if change <= 0 else None
                if driving is not None and (change, driving) < (0, 0):
                    found = (change, driving), slot, other
                    best = found if best is None else min(best, found)
    if best is None:
        return False
    _, slot, other = best
    mine, theirs = _exchanged(draft, (visit, own), (other, slot))
    draft.put(own, ())
    draft.put(slot, ())
    draft.put(own, mine)
    draft.put(slot, theirs)
    return True


def _exchanged(draft: Draft, one: tuple[int, Slot], two: tuple[int, Slot]) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Return the visits of both days after an exchange."""
    (visit, own), (other, slot) = one, two
    mine = tuple(sorted((*(some for some in draft.slots[own] if some != visit), other)))
    return mine, tuple(sorted((*(some for some in draft.slots[slot] if some != other), visit)))


def _exchange_driving(draft: Draft, one: tuple[int, Slot], two: tuple[int, Slot]) -> int | None:
    """Return by how much an exchange changes the driving [min]; None where a day would be over its hours."""
    change = 0
    for slot, visits in zip((one[1], two[1]), _exchanged(draft, one, two), strict=True):
        driving = draft.frame.roads.round_minutes(slot[0], visits)
        if (
            driving + sum(draft.frame.visits[visit].minutes for visit in visits)
            > draft.frame.people[slot[0]].minutes_a_day
        ):
            return None
        change += driving - draft.travel(slot)
    return change
