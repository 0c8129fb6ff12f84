"""What would change an answer, found by asking the window again with one record changed.

| record | changes asked |
|---|---|
| a spreading ahead that takes days of the season | the fewest days earlier and later that free the best day; dropped |
| a spreading that was done and takes days of the season | dropped: what the window would be without it |
| a spreading without a date | dated: the answer would be known |

Only changes that move the preferred day, or give one where there is none, are listed.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

from soilrota.model.applications import Standing
from soilrota.model.changes import Change, ChangeKind
from soilrota.model.windows import AppliedGap, Task, Window
from soilrota.timing.frame import Frame, frame_of
from soilrota.timing.gaps import closes
from soilrota.timing.windows import window_of

#: A spreading is not moved further than this [d]. House default.
FURTHEST = 400


def changes_of(task: Task, as_of: date) -> tuple[Change, ...]:
    """Return the changes of single records that would change the task's answer, in the order of the records."""
    frame, window = frame_of(task, as_of), window_of(task, as_of)
    found: list[Change] = []
    for record in sorted(task.applications, key=lambda one: one.application.place):
        if not closes(record):
            continue
        if record.application.last_day is None:
            found.append(_dated(record))
        elif _takes_days(frame, record):
            found += _of_one(task, record, window, as_of)
    return tuple(found)


def _takes_days(frame: Frame, record: AppliedGap) -> bool:
    """Return whether a record takes days of the season."""
    return any(closing.place == record.application.place for closing, _ in frame.taken)


def _dated(record: AppliedGap) -> Change:
    """Return that the answer would be known if the date were."""
    application = record.application
    what = (application.material_class, application.material)
    return Change(ChangeKind.DATED, application.place, what, 0, None, None, None)


def _of_one(task: Task, record: AppliedGap, window: Window, as_of: date) -> Iterator[Change]:
    """Yield what moving or dropping one dated record would do."""
    without = window_of(_with(task, record, None), as_of)
    if without.preferred is None or without.preferred == window.preferred:
        return
    if _lies_ahead(record, as_of):
        for kind, step in ((ChangeKind.EARLIER, -1), (ChangeKind.LATER, 1)):
            moved = _fewest_days(task, record, without.preferred, as_of, step)
            if moved is not None:
                yield _change(kind, record, *moved)
    yield _change(ChangeKind.DROPPED, record, 0, without)


def _lies_ahead(record: AppliedGap, as_of: date) -> bool:
    """Return whether a spreading can still be put elsewhere."""
    application = record.application
    return (
        application.standing is Standing.PLANNED and application.first_day is not None and application.first_day > as_of
    )


def _fewest_days(task: Task, record: AppliedGap, wanted: date, as_of: date, step: int) -> tuple[int, Window] | None:
    """Return by how few days a spreading must move for the wanted day to be preferred, and the window then."""
    first = record.application.first_day
    assert first is not None  # only spreadings that lie ahead are moved, and those have a first day
    for days in range(1, FURTHEST):
        shift = timedelta(days=days * step)
        if first + shift <= as_of:
            return None
        moved = window_of(_with(task, record, shift), as_of)
        if moved.preferred == wanted:
            return days, moved
    return None


def _with(task: Task, record: AppliedGap, shift: timedelta | None) -> Task:
    """Return the task with one record moved, or cancelled where there is no shift."""
    application = record.application
    if shift is None:
        changed = replace(application, standing=Standing.CANCELLED)
    else:
        days = (application.first_day, application.last_day)
        first, last = (None if day is None else day + shift for day in days)
        changed = replace(application, first_day=first, last_day=last)
    others = tuple(one for one in task.applications if one is not record)
    return replace(task, applications=(*others, replace(record, application=changed)))


def _change(kind: ChangeKind, record: AppliedGap, days: int, window: Window) -> Change:
    """Return a change with the window that would follow."""
    application = record.application
    first = application.first_day
    if first is not None and days:
        first += timedelta(days=-days if kind is ChangeKind.EARLIER else days)
    opens = window.open[0].first if window.open else None
    what = (application.material_class, application.material)
    return Change(kind, application.place, what, days, first, opens, window.preferred)
