"""From the windows of a client to the visits of each of its farms."""

from __future__ import annotations

from collections.abc import Sequence

from soilrota.guidelines.field_work import field_work
from soilrota.model.client import Client
from soilrota.model.visits import FarmVisits, TaskToVisit, ZoneWork
from soilrota.model.windows import Rule, State, Window
from soilrota.timing.shared_visits import sharing_groups
from soilrota.timing.visits import plan_visits

#: Tasks in these states want no day now: they are settled, or nobody can say.
_WANT_NO_DAY = frozenset({State.BAGS_OUT, State.RESULTS_IN, State.NOT_KNOWN, State.NO_DAY_LEFT})


def visits_of(client: Client, windows: Sequence[Window]) -> tuple[FarmVisits, ...]:
    """Return the visits of each farm that has a task to be sampled, in the order of the client's farms.

    A task aims at its preferred day; once its best day has passed, at that one, so that sooner is better.

    Args:
        client: the client.
        windows: the answers for its tasks.
    """
    found = []
    for farm in client.farms:
        wanting = [window for window in windows if window.key.farm == farm.id and window.state not in _WANT_NO_DAY]
        tasks = [_task(client, window) for window in wanting]
        if tasks:
            plan = plan_visits(tasks, field_work().minutes)
            sharing = sharing_groups((window.key, window.workable) for window in wanting)
            found.append(FarmVisits(farm.id, plan, sharing))
    return tuple(found)


def _task(client: Client, window: Window) -> TaskToVisit:
    """Return a task that wants a day."""
    key = window.key
    zone = next(zone for farm in client.farms for zone in farm.zones if (farm.id, zone.id) == (key.farm, key.zone))
    passed = any(reason.rule is Rule.BEST_DAY_PASSED for reason in window.reasons)
    return TaskToVisit(
        key=key,
        spans=window.workable,
        target=window.target if passed or window.preferred is None else window.preferred,
        last_useful=window.last_useful,
        work=ZoneWork(key.farm, key.zone, zone.area_ha, client.protocols[key.protocol].layers),
    )
