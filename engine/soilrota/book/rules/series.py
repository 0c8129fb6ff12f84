"""Series: a zone that was redrawn, split or merged names what it was, and that can be."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from soilrota.book.clients import build_follows
from soilrota.book.parts import ClientParts, Located
from soilrota.language import phrase
from soilrota.model.client import Forebear, Zone
from soilrota.model.cropping import CropYear
from soilrota.model.results import Result
from soilrota.model.samples import FieldNote
from soilrota.problems import Problem, error, warning


def former_series_are_sound(parts: ClientParts) -> Iterator[Problem]:
    """A former series ends once, a merged zone had several, and a zone that is only redrawn follows no other zone."""
    for zone in parts.zones:
        follows = build_follows(zone)
        days = Counter(forebear.value.since for forebear in follows)
        there = parts.zones_of(zone.value.farm)
        for forebear in follows:
            if days[forebear.value.since] > 1:
                found = f"two former series of zone {zone.value.id} end on {forebear.value.since.isoformat()}"
                mend = "name all former zones in one of them"
                yield error("series-repeated", forebear.at("since"), found, "each day once", mend)
            yield from _former_zones(zone.value, forebear, there)


def _former_zones(zone: Zone, forebear: Located[Forebear], there: tuple[str, ...]) -> Iterator[Problem]:
    """Yield what is wrong with the zones of one former series."""
    value = forebear.value
    if value.how == "merged" and len(value.zones) < 2:  # noqa: PLR2004 - two is what merging takes
        found, mend = f"zone {zone.id} was merged from {value.zones[0]} alone", "name all zones that it was merged from"
        yield error("merged-from-one", forebear.at("zones"), found, "two former zones or more", mend)
    for number, word in enumerate(value.zones):
        if value.how == "redrawn" and word != zone.id and word in there:
            found = f"zone {zone.id} was redrawn from {word}, which is a zone still"
            mend = "write how: split, or name the zone that is gone"
            yield error("former-zone-there", forebear.at("zones", number), found, "a zone that is gone", mend)


def former_zones_have_records(parts: ClientParts) -> Iterator[Problem]:
    """A former zone that is gone stands in some record; one that stands in none is more often a slip of the pen."""
    rows: tuple[Located[FieldNote] | Located[CropYear] | Located[Result], ...]
    rows = (*parts.field_notes, *parts.cropping, *parts.results)
    named = {(row.value.farm, row.value.zone) for row in rows}
    named |= {(row.value.farm, zone) for row in parts.applications for zone in row.value.zones}
    for zone in parts.zones:
        there = parts.zones_of(zone.value.farm)
        for forebear in build_follows(zone):
            for number, word in enumerate(forebear.value.zones):
                if word not in there and (zone.value.farm, word) not in named:
                    found = phrase("no record names the former zone {zone}", zone=word)
                    mend = phrase("correct its id, or leave it out: it has no results to follow")
                    place, expected = forebear.at("zones", number), phrase("a zone that records name")
                    yield warning("former-zone-without-records", place, found, expected, mend)
