"""Series of results: a zone that was redrawn, split or merged starts a new one, linked to the older ones."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from soilrota.model.client import Client, Forebear


@dataclass(frozen=True, slots=True, order=True)
class Series:
    """A zone in one shape.

    Attributes:
        farm, zone: ids; the zone may be gone.
        since: first day of the series, ISO 8601; empty for a zone's first shape.
    """

    farm: str
    zone: str
    since: str = ""

    def __str__(self) -> str:
        """Return its name on the farm, for instance `river-flat` or `river-flat since 2024-07-01`."""
        return f"{self.zone} since {self.since}" if self.since else self.zone


def series_of(client: Client, farm: str, zone: str, day: date) -> Series:
    """Return the series of a result that was sampled on a day; before the zone's first change, its first shape's."""
    since = max((one.since for one in _forebears(client, farm, zone) if one.since <= day), default=None)
    return Series(farm, zone, since.isoformat() if since else "")


def earlier_series(client: Client, series: Series) -> tuple[Series, ...]:
    """Return the series that one follows directly, in the order in which the client's file names their zones."""
    found = []
    for forebear in _forebears(client, series.farm, series.zone):
        if forebear.since.isoformat() == series.since:
            before = forebear.since - timedelta(days=1)
            found += [series_of(client, series.farm, zone, before) for zone in forebear.zones]
    return tuple(dict.fromkeys(found))


def all_earlier_series(client: Client, series: Series) -> tuple[Series, ...]:
    """Return every series that one follows, the nearest first. Each began before the next, so there is an end."""
    found = dict.fromkeys(earlier_series(client, series))
    for one in tuple(found):
        found |= dict.fromkeys(all_earlier_series(client, one))
    return tuple(found)


def how_it_began(client: Client, series: Series) -> str:
    """Return whether the zone was `redrawn`, `split` or `merged` when a series began; empty for a first shape."""
    forebears = _forebears(client, series.farm, series.zone)
    return next((one.how for one in forebears if one.since.isoformat() == series.since), "")


def _forebears(client: Client, farm: str, zone: str) -> Iterator[Forebear]:
    """Yield what a zone was, the latest first; nothing of a zone that is gone."""
    for one in client.farms:
        if one.id == farm:
            for there in one.zones:
                if there.id == zone:
                    yield from there.follows
