"""Which values of a zone compare, and what sets the others apart.

What two values must have in common is told by a key that the caller brings; here stands what is asked of it. A series
is all values of one key. It is the zone's own as long as nothing has taken its place: no later value of the same
analyte, on ground in common with its layer, by another method, layer or season, or on a redrawn zone.

Values that are not in a series and came before its last one are left out, and counted, unless a value of the series
stands on the same day: a laboratory that measures by two methods each time has two series and no break.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass
from typing import Protocol

from soilrota.agronomy.barred import Barred, rules_against
from soilrota.model.client import Client, Zone
from soilrota.model.results import Result


class Comparable(Protocol):
    """What two values must have in common to be compared; hashable, equal where they compare."""

    @property
    def season(self) -> str:
        """Return the protocol's season; empty where the sample was taken outside it."""
        ...

    @property
    def series(self) -> Hashable:
        """Return the zone in one shape."""
        ...

    def __hash__(self) -> int:
        """Return the hash of all that must be in common."""
        ...


#: Returns what a result of a client has in common with those that it compares with.
Key = Callable[[Client, Result], Comparable]


@dataclass(frozen=True, slots=True)
class Run:
    """Values that compare, and what was left out.

    Attributes:
        points: by day of sampling.
        broken_by: `method`, `layer`, `season`, `zone-redrawn`, those that set earlier values apart.
        left_out: how many earlier values are [-].
    """

    points: tuple[Result, ...]
    broken_by: tuple[str, ...]
    left_out: int


def runs_of(client: Client, zone: Zone, protocol: str, key: Key, barred: Barred | None = None) -> tuple[Run, ...]:
    """Return the series of a zone under a protocol that still go on, by analyte, layer and method.

    Args:
        client: whose results are asked.
        zone: the zone; results of what it was before count among those that are left out.
        protocol: id of the protocol.
        key: what values must have in common.
        barred: samples whose results are barred from advice; they are not there at all.
    """
    zones = _lineage(client, zone)
    held = sorted(
        (
            one
            for one in client.results
            if one.farm == zone.farm
            and one.zone in zones
            and one.protocol == protocol
            and not rules_against(one, barred or {})
        ),
        key=_order,
    )
    keys = {id(one): key(client, one) for one in held}
    series: defaultdict[Comparable, list[Result]] = defaultdict(list)
    for one in held:
        series[keys[id(one)]].append(one)
    runs = [
        _run(points, [one for one in held if _is_rival(one, points[-1])], keys)
        for points in series.values()
        if points[-1].zone == zone.id
    ]
    return tuple(sorted((run for run in runs if run is not None), key=lambda run: _names(run.points[-1])))


def _run(points: Sequence[Result], rivals: Sequence[Result], keys: dict[int, Comparable]) -> Run | None:
    """Return one series; None where another has taken its place."""
    own, last = keys[id(points[0])], points[-1]
    days = {one.sampled for one in points}
    others = [one for one in rivals if keys[id(one)] != own]
    if any(one.sampled > last.sampled for one in others):
        return None
    apart = [one for one in others if one.sampled not in days]
    reasons = {reason for one in apart for reason in _reasons(one, keys[id(one)], last, own)}
    named = ("method", "layer", "season", "zone-redrawn")
    return Run(tuple(points), tuple(one for one in named if one in reasons), len(apart))


def _is_rival(one: Result, last: Result) -> bool:
    """Return whether a value is of the same analyte and has ground in common with a series' layer."""
    return one.analyte == last.analyte and one.top_cm < last.bottom_cm and one.bottom_cm > last.top_cm


def _reasons(one: Result, its: Comparable, last: Result, own: Comparable) -> list[str]:
    """Return what sets a value apart from a series."""
    differs = {
        "method": (one.method, one.unit) != (last.method, last.unit),
        "layer": (one.top_cm, one.bottom_cm) != (last.top_cm, last.bottom_cm),
        "season": its.season != own.season,
        "zone-redrawn": its.series != own.series,
    }
    return [name for name, apart in differs.items() if apart]


def _lineage(client: Client, zone: Zone) -> frozenset[str]:
    """Return a zone's id with those of every zone that it goes back to."""
    follows = {one.id: one.follows for farm in client.farms if farm.id == zone.farm for one in farm.zones}
    found: set[str] = set()
    waiting = [zone.id]
    while waiting:
        known = waiting.pop()
        if known not in found:
            found.add(known)
            waiting += [former for forebear in follows.get(known, ()) for former in forebear.zones]
    return frozenset(found)


def _order(result: Result) -> tuple[object, ...]:
    """Return where a result stands among those of its zone."""
    return (result.sampled, *_names(result), result.zone, result.laboratory, result.report, result.bag)


def _names(result: Result) -> tuple[str, float, float, str]:
    """Return where a series stands among those of its zone."""
    return result.analyte, result.top_cm, result.bottom_cm, result.method
