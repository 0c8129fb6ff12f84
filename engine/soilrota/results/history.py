"""The history of a client: every value that stands, with what it compares with, as a table for the rest of the engine.

pandas is loaded inside `history_frame` alone: a night on which nothing came back never needs it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from soilrota.model.client import Client
from soilrota.model.practice import MonthDaySpan
from soilrota.model.results import Result
from soilrota.results.series import Series, all_earlier_series, how_it_began, series_of

if TYPE_CHECKING:
    import pandas as pd

#: Columns of the history with their dtypes.
DTYPES: Mapping[str, str] = {
    "client": "string",
    "farm": "string",
    "zone": "string",
    "series": "string",
    "protocol": "string",
    "top_cm": "float64",
    "bottom_cm": "float64",
    "sampled": "datetime64[ns]",
    "season": "string",
    "season_year": "Int64",
    "analyte": "string",
    "method": "string",
    "qualifier": "string",
    "value": "float64",
    "unit": "string",
    "laboratory": "string",
    "report": "string",
    "issue": "int64",
    "bag": "string",
    "breaks": "string",
}


@dataclass(frozen=True, slots=True)
class ComparabilityKey:
    """What two values must have in common to be compared.

    Attributes:
        analyte, method, unit: what was measured, and how.
        top_cm, bottom_cm: layer [cm].
        season: id of the protocol's season where the sample was taken in it; empty where it was taken outside.
        series: the zone in one shape.
    """

    analyte: str
    method: str
    unit: str
    top_cm: float
    bottom_cm: float
    season: str
    series: Series


def comparability_key(client: Client, result: Result) -> ComparabilityKey:
    """Return what a result has in common with those that it may be compared with."""
    return ComparabilityKey(
        analyte=result.analyte,
        method=result.method,
        unit=result.unit,
        top_cm=result.top_cm,
        bottom_cm=result.bottom_cm,
        season=_season(client, result)[0],
        series=series_of(client, result.farm, result.zone, result.sampled),
    )


def history_frame(client: Client) -> pd.DataFrame:
    """Return every result of a client that stands, by farm, zone, protocol, layer, analyte and day.

    Columns, besides the ids `client`, `farm`, `zone`, `protocol`, `analyte`, `method`, `laboratory`, `report` and `bag`
    (string; `bag` may be empty):

    - `series` (string): the zone in one shape, for instance `river-flat since 2024-07-01`; unique on its farm.
    - `top_cm`, `bottom_cm` (float64): layer [cm].
    - `sampled` (datetime64[ns]): day of sampling.
    - `season` (string): id of the protocol's season; empty where the sample was taken outside it.
    - `season_year` (Int64): year in which that season began; of the day of sampling where it was taken outside it.
    - `qualifier` (string): empty, `<` or `>`.
    - `value` (float64): the number [`unit`].
    - `unit` (string): as in the glossary.
    - `issue` (int64): issue of the report, from 1 [-].
    - `breaks` (string): why the value does not continue the one before it, joined by `, `: `method`, `unit`, `depth`,
      `season`, `zone redrawn`, `zone split`, `zone merged`; empty where it continues it or is the first.

    The value before is the latest one of the same analyte and protocol, on the zone or on what it was, of a layer that
    has ground in common; of several of one day the one that has most in common.
    """
    import pandas as pd  # noqa: PLC0415 - heavy, and not needed on a quiet night

    breaks = _breaks(client)
    rows = [_row(client, result, breaks[id(result)]) for result in sorted(client.results, key=_order)]
    frame = pd.DataFrame(rows, columns=list(DTYPES))
    return frame.astype(DTYPES)


def _order(result: Result) -> tuple[Hashable, ...]:
    """Return where a result stands in the history."""
    layer = (result.top_cm, result.bottom_cm)
    named = (result.farm, result.zone, result.protocol, *layer, result.analyte, result.sampled)
    return (*named, result.method, result.laboratory, result.report, result.place)


def _row(client: Client, result: Result, breaks: str) -> dict[str, object]:
    """Return one row of the history."""
    season, year = _season(client, result)
    return {
        **{name: getattr(result, name) for name in DTYPES if name in Result.__slots__},
        "client": client.id,
        "series": str(series_of(client, result.farm, result.zone, result.sampled)),
        "season": season,
        "season_year": year,
        "breaks": breaks,
    }


def _season(client: Client, result: Result) -> tuple[str, int]:
    """Return the protocol's season, empty where the sample was taken outside it, and the year in which it began."""
    protocol = client.protocols.get(result.protocol)
    season = client.practice.seasons.get(protocol.season) if protocol else None
    for span in season.spans.get(client.hemisphere, ()) if season else ():
        year = _year_of(span, result.sampled)
        if season is not None and year is not None:
            return season.id, year
    return "", result.sampled.year


def _year_of(span: MonthDaySpan, day: date) -> int | None:
    """Return the year in which the span that holds a day began; None where the day lies outside it."""
    first, last, this = (span.first.month, span.first.day), (span.last.month, span.last.day), (day.month, day.day)
    if first <= last:
        return day.year if first <= this <= last else None
    if this >= first:
        return day.year
    return day.year - 1 if this <= last else None


def _breaks(client: Client) -> dict[int, str]:
    """Return for each result, by identity, why it does not continue the one before it."""
    groups: defaultdict[Hashable, list[Result]] = defaultdict(list)
    for result in sorted(client.results, key=lambda one: one.sampled):
        groups[result.farm, result.protocol, result.analyte].append(result)
    keys = {id(result): comparability_key(client, result) for result in client.results}
    lineage = {key.series: {key.series, *all_earlier_series(client, key.series)} for key in keys.values()}
    found: dict[int, str] = {}
    for group in groups.values():
        for number, result in enumerate(group):
            key = keys[id(result)]
            before = [one for one in _before(result, group[:number]) if keys[id(one)].series in lineage[key.series]]
            latest = [one for one in before if one.sampled == before[-1].sampled]
            reasons = [tuple(_differences(client, key, keys[id(one)])) for one in latest]
            fewest: tuple[str, ...] = min(reasons, key=len, default=())
            found[id(result)] = ", ".join(fewest)
    return found


def _before(result: Result, earlier: Sequence[Result]) -> list[Result]:
    """Return the earlier results of another day whose layer has ground in common with a result's, in order of day."""
    return [
        one
        for one in earlier
        if one.sampled < result.sampled and one.top_cm < result.bottom_cm and one.bottom_cm > result.top_cm
    ]


def _differences(client: Client, key: ComparabilityKey, before: ComparabilityKey) -> Iterator[str]:
    """Yield what sets a value apart from the one before it."""
    if key.method != before.method:
        yield "method"
    if key.unit != before.unit:
        yield "unit"
    if (key.top_cm, key.bottom_cm) != (before.top_cm, before.bottom_cm):
        yield "depth"
    if key.season != before.season:
        yield "season"
    if key.series != before.series:
        yield f"zone {how_it_began(client, key.series)}"
