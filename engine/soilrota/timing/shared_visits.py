"""Several protocols on one zone: windows that can share one visit."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from itertools import pairwise

from soilrota.model.visits import SharedDays
from soilrota.model.windows import Span, TaskKey
from soilrota.timing.spans import ONE_DAY, intersect, union


def shared_days(spans: Iterable[Span], others: Iterable[Span]) -> tuple[Span, ...]:
    """Return the days open in both windows, sorted and disjoint; none where they cannot share a visit."""
    return intersect(spans, others)


def sharing_groups(windows: Iterable[tuple[TaskKey, tuple[Span, ...]]]) -> tuple[SharedDays, ...]:
    """Return, for every zone, the largest groups of its tasks that can share a visit.

    Args:
        windows: each task with its open days, in any order.

    Returns:
        Groups of two tasks or more of one zone, none of them inside another, with all days on which the whole group
        is open; by farm and zone, then first shared day.
    """
    zones: dict[tuple[str, str], list[tuple[TaskKey, tuple[Span, ...]]]] = defaultdict(list)
    for key, spans in windows:
        zones[key.farm, key.zone].append((key, union(spans)))
    return tuple(
        group for zone in sorted(zones) for group in _groups(sorted(zones[zone], key=lambda pair: _name(pair[0])))
    )


def _name(key: TaskKey) -> tuple[str, str, str]:
    """Return what tasks are put in order by."""
    return key.farm, key.zone, key.protocol


def _groups(windows: list[tuple[TaskKey, tuple[Span, ...]]]) -> list[SharedDays]:
    """Return the groups of one zone: between two neighbouring edges the set of open tasks does not change."""
    edges = sorted({edge for _, spans in windows for span in spans for edge in (span.first, span.last + ONE_DAY)})
    days: dict[tuple[TaskKey, ...], list[Span]] = defaultdict(list)
    for first, after in pairwise(edges):
        keys = tuple(key for key, spans in windows if any(first in span for span in spans))
        days[keys].append(Span(first, after - ONE_DAY))
    largest = [keys for keys in days if len(keys) > 1 and not any(set(keys) < set(others) for others in days)]
    groups = [SharedDays(keys, union(days[keys])) for keys in largest]
    return sorted(groups, key=lambda group: (group.spans, [_name(key) for key in group.keys]))
