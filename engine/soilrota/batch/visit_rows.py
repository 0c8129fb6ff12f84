"""Visits as rows of text: how the ledger keeps them from the night on which a client was looked at.

Columns: `visit`, `client`, `client_name`, `farm`, `farm_name`, `zones` (names, joined by `; `), `longitude`,
`latitude` (empty where not known), `minutes`, `days` (spans `first/last` joined by blanks; a span that was open already
when the client was looked at begins with `..`, an open start of ISO 8601-2, so that a row stands still from night to
night), `preferred`, `last_useful` (empty without one), `people` (ids of
those who may make it, joined by blanks; empty for everyone), `bags` (`zone/protocol/season/top-bottom`, joined by
blanks: a bag a layer, the season by its first day, depths in cm).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import TYPE_CHECKING

from soilrota.batch.values import PlacedRow, VisitRow
from soilrota.model.field_pack import Bag

if TYPE_CHECKING:
    from soilrota.model.client import Client
    from soilrota.model.field_calendar import VisitToPlace
    from soilrota.model.visits import FarmVisits
    from soilrota.model.windows import Span, TaskKey, Window

_OPEN_START = ".."


def visit_day(visit: VisitRow, placed: Mapping[str, PlacedRow]) -> date:
    """Return the day of a visit: in the field calendar, or else in its farm's own plan.

    Args:
        visit: its row.
        placed: the visits that the field calendar has placed, by id.
    """
    known = placed.get(visit["visit"])
    return date.fromisoformat(known["day"] if known else visit["preferred"])


def visit_rows(
    client: Client,
    visits: Sequence[FarmVisits],
    to_place: Sequence[VisitToPlace],
    windows: Sequence[Window],
    as_of: date,
) -> tuple[VisitRow, ...]:
    """Return a row a visit.

    Args:
        client: the client.
        visits: the visits of its farms.
        to_place: the same visits, in the same order, as the field calendar places them.
        windows: the answers for the client's tasks.
        as_of: the as-of date for which they were found.
    """
    seasons = {window.key: window.season.span.first for window in windows}
    days = [visit for of_farm in visits for visit in of_farm.plan.visits]
    farms = {farm.id: farm.name for farm in client.farms}
    zones = {(zone.farm, zone.id): zone.name for farm in client.farms for zone in farm.zones}
    return tuple(
        {
            "visit": one.id,
            "client": client.id,
            "client_name": client.name,
            "farm": one.farm,
            "farm_name": farms[one.farm],
            "zones": "; ".join(dict.fromkeys(zones[key.farm, key.zone] for key in day.tasks)),
            "longitude": "" if one.position is None else repr(one.position[0]),
            "latitude": "" if one.position is None else repr(one.position[1]),
            "minutes": str(one.minutes),
            "days": " ".join(_written(span, as_of) for span in one.spans),
            "preferred": one.preferred.isoformat(),
            "last_useful": one.last_useful.isoformat() if one.last_useful else "",
            "people": " ".join(one.people),
            "bags": " ".join(_bags(client, day.tasks, seasons)),
        }
        for one, day in zip(to_place, days, strict=True)
    )


def _bags(client: Client, tasks: Iterable[TaskKey], seasons: Mapping[TaskKey, date]) -> Iterator[str]:
    """Yield what goes into each bag of a visit."""
    for key in tasks:
        for layer in client.protocols[key.protocol].layers:
            yield f"{key.zone}/{key.protocol}/{seasons[key]}/{layer.top_cm:g}-{layer.bottom_cm:g}"


def bags_of(row: VisitRow) -> tuple[Bag, ...]:
    """Return the bags of a row, as yet without ids; none of a row from before bags had ids."""
    bags = []
    for text in row.get("bags", "").split():
        zone, protocol, season, depth = text.split("/")
        top, _, bottom = depth.partition("-")
        bags.append(Bag("", row["farm"], zone, protocol, season, float(top), float(bottom)))
    return tuple(bags)


def _written(span: Span, as_of: date) -> str:
    """Return a span; one that is open on the as-of date with an open start."""
    return f"{_OPEN_START if span.first <= as_of else span.first.isoformat()}/{span.last.isoformat()}"


def visits_from(rows: Iterable[VisitRow], from_day: date) -> tuple[VisitToPlace, ...]:
    """Return the visits of rows as the field calendar places them, with no day before `from_day`."""
    return tuple(_visit(row, from_day) for row in rows)


def _visit(row: VisitRow, from_day: date) -> VisitToPlace:
    """Return one visit."""
    spans = tuple(span for text in row["days"].split() if (span := _read(text, from_day)) is not None)
    from soilrota.model.field_calendar import VisitToPlace  # noqa: PLC0415 - a quiet night places nothing

    return VisitToPlace(
        id=row["visit"],
        client=row["client"],
        farm=row["farm"],
        position=(float(row["longitude"]), float(row["latitude"])) if row["longitude"] else None,
        minutes=int(row["minutes"]),
        spans=spans,
        preferred=date.fromisoformat(row["preferred"]),
        last_useful=date.fromisoformat(row["last_useful"]) if row["last_useful"] else None,
        people=tuple(row["people"].split()),
    )


def _read(text: str, from_day: date) -> Span | None:
    """Return a span from a day on; None where it has passed."""
    from soilrota.model.windows import Span  # noqa: PLC0415 - as above

    first, _, last = text.partition("/")
    start = from_day if first == _OPEN_START else max(date.fromisoformat(first), from_day)
    end = date.fromisoformat(last)
    return Span(start, end) if start <= end else None
