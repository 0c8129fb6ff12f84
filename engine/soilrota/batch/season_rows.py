"""From a client's windows to its rows of the season table."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from soilrota.batch.values import SeasonRow
from soilrota.model.client import Client, Farm, Zone
from soilrota.model.windows import Rule, Span, Window


def season_rows(client: Client, windows: tuple[Window, ...]) -> tuple[SeasonRow, ...]:
    """Return a row a window, in their order; the columns are described in `soilrota.batch.season`."""
    farms = {farm.id: farm for farm in client.farms}
    zones = {(zone.farm, zone.id): zone for farm in client.farms for zone in farm.zones}
    return tuple(
        _row(client, farms[window.key.farm], zones[window.key.farm, window.key.zone], window) for window in windows
    )


def _row(client: Client, farm: Farm, zone: Zone, window: Window) -> SeasonRow:
    """Return the row of one window."""
    passed = any(reason.rule is Rule.BEST_DAY_PASSED for reason in window.reasons)
    best = window.preferred if not passed else None
    last = window.last_sampling
    season = client.practice.seasons.get(window.season.name)
    adviser = client.practice.people.get(client.adviser)
    return {
        "client": client.id,
        "client_name": client.name,
        "farm": farm.id,
        "farm_name": farm.name,
        "zone": zone.id,
        "zone_name": zone.name,
        "protocol": window.key.protocol,
        "protocol_name": client.protocols[window.key.protocol].name,
        "state": str(window.state),
        "season": window.season.name,
        "season_name": season.name if season else window.season.name,
        "season_first": window.season.span.first.isoformat(),
        "season_last": window.season.span.last.isoformat(),
        "open_days": " ".join(map(_interval, window.season_open)),
        "best_day": best.isoformat() if best else "",
        "best_day_passed": "yes" if passed else "no",
        "last_sampled": last.day.isoformat() if last else "",
        "months_overdue": "" if window.overdue_months is None else str(window.overdue_months),
        "closed_days": " ".join(map(_interval, sorted({span for span, _ in window.closed}))),
        "planned_spreading": " ".join(map(_interval, sorted(set(_planned_spreading(window))))),
        "adviser": adviser.name if adviser else "",
    }


def _planned_spreading(window: Window) -> Iterator[Span]:
    """Yield the days of each planned spreading that has days and takes some of the season."""
    for reason in window.reasons:
        if reason.rule is Rule.SPREAD_PLANNED:
            last = reason.facts.get("last_day")
            first = reason.facts.get("first_day", last)
            if isinstance(first, date) and isinstance(last, date):
                yield Span(first, last)


def _interval(span: Span) -> str:
    """Return a span as an ISO 8601 interval of days."""
    return f"{span.first.isoformat()}/{span.last.isoformat()}"
