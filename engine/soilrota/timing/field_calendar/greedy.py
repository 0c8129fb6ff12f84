"""The first plan: visits one by one, the hardest to place first, each where it costs least."""

from __future__ import annotations

from itertools import pairwise

from soilrota.timing.field_calendar.draft import Draft
from soilrota.timing.field_calendar.frame import Frame, Slot

#: Person and day, minutes [min].
Part = tuple[Slot, int]


def greedy_plan(frame: Frame) -> Draft:
    """Return a plan made visit by visit.

    Order: greater priority first, then long visits, then those with fewer open days, then the earlier last day. Each
    goes to the day with the fewest points on which somebody has the time, there to the person with the least added
    driving.
    """
    draft = Draft(frame)
    for visit in sorted(range(len(frame.visits)), key=lambda number: _hardest_first(frame, number)):
        if frame.able[visit]:
            _insert(draft, visit)
        else:
            parts = split_parts(draft, visit)
            if parts:
                draft.split(visit, parts)
    return draft


def split_parts(draft: Draft, visit: int) -> tuple[Part, ...]:
    """Return the days of a long visit: the run of free working days of one person with the fewest points.

    A visit that no allowed person can make within one day is split over successive working days of one person, each
    with the drive there and back and nothing else; all of them lie in the visit's window, and between two of them are
    at most so many days off as the house rules say. Of equal runs the one with the least driving, then the earliest.
    """
    runs = [run for person in draft.frame.allowed[visit] for run in _runs(draft, visit, person)]
    return min(runs, key=lambda run: _run_cost(draft, visit, run), default=())


def parts_needed(frame: Frame, visit: int, person: int) -> int | None:
    """Return the days of a person that a visit takes; None where driving leaves no time or the rules forbid it."""
    left = frame.people[person].minutes_a_day - frame.roads.there_and_back(person, visit)
    if left <= 0:
        return None
    number = -(-frame.visits[visit].minutes // left)
    return number if number <= frame.rules.longest_split_days else None


def may_split(frame: Frame, visit: int) -> bool:
    """Return whether a visit is too long for one day of anybody, but can be split over days of somebody."""
    people = frame.allowed[visit]
    return not frame.able[visit] and any(parts_needed(frame, visit, person) is not None for person in people)


def _hardest_first(frame: Frame, visit: int) -> tuple[int, bool, int, int, int]:
    """Return what visits are put in order by."""
    days = frame.points[visit]
    return -frame.visits[visit].priority, bool(frame.able[visit]), len(days), max(days, default=0), visit


def _insert(draft: Draft, visit: int) -> None:
    """Put a visit where it costs least, if there is such a place."""
    levels: dict[int, list[int]] = {}
    for day, points in draft.frame.points[visit].items():
        levels.setdefault(points, []).append(day)
    for points in sorted(levels):
        places = [
            (added, day, person)
            for day in levels[points]
            for person in draft.frame.able[visit]
            if (added := added_driving(draft, (person, day), visit)) is not None
        ]
        if places:
            _, day, person = min(places)
            draft.put((person, day), tuple(sorted((*draft.slots.get((person, day), ()), visit))))
            return


def added_driving(draft: Draft, slot: Slot, visit: int) -> int | None:
    """Return the driving that a visit adds to a person's day [min]; None where it does not fit."""
    frame, (person, day) = draft.frame, slot
    there = draft.slots.get(slot, ())
    if day not in frame.at_work[person] or slot in draft.blocked or len(there) >= frame.rules.most_farms_a_day:
        return None
    work = frame.visits[visit].minutes + sum(frame.visits[other].minutes for other in there)
    if work + frame.roads.there_and_back(person, visit) > frame.people[person].minutes_a_day:
        return None
    driving = frame.roads.round_minutes(person, tuple(sorted((*there, visit))))
    fits = work + driving <= frame.people[person].minutes_a_day
    return driving - draft.travel(slot) if fits else None


def _runs(draft: Draft, visit: int, person: int) -> list[tuple[Part, ...]]:
    """Return every run of free working days of a person that a long visit can have."""
    frame = draft.frame
    number = parts_needed(frame, visit, person)
    if number is None:
        return []
    days = sorted(frame.at_work[person])
    left = frame.people[person].minutes_a_day - frame.roads.there_and_back(person, visit)
    sizes = [left] * (number - 1) + [frame.visits[visit].minutes - left * (number - 1)]
    windows = (days[start : start + number] for start in range(len(days) - number + 1))
    return [
        tuple(((person, day), size) for day, size in zip(run, sizes, strict=True))
        for run in windows
        if all(_is_free(draft, visit, (person, day)) for day in run) and _keeps_together(frame, run)
    ]


def _is_free(draft: Draft, visit: int, slot: Slot) -> bool:
    """Return whether a person has nothing on a day that lies in the visit's window."""
    return slot[1] in draft.frame.points[visit] and slot not in draft.blocked and slot not in draft.slots


def _keeps_together(frame: Frame, run: list[int]) -> bool:
    """Return whether the pauses between the days of a run are short enough."""
    days = [frame.days[day] for day in run]
    pauses = [(after - before).days - 1 for before, after in pairwise(days)]
    return all(pause <= frame.rules.longest_pause_days for pause in pauses)


def _run_cost(draft: Draft, visit: int, run: tuple[Part, ...]) -> tuple[int, int, tuple[Part, ...]]:
    """Return what runs are compared by: points, driving, the earliest."""
    (person, last), _ = run[-1]
    driving = len(run) * draft.frame.roads.there_and_back(person, visit)
    return draft.frame.points[visit][last], driving, tuple(sorted(run, key=lambda part: part[0][1]))
