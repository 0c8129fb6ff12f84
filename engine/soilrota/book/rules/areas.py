"""Areas: known, likely, and within what one composite may stand for. Stated against drawn: see `drawn`."""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.book.limits import limits
from soilrota.book.parts import ClientParts
from soilrota.language import Figure, phrase
from soilrota.problems import Problem, error, warning


def areas_are_known(parts: ClientParts) -> Iterator[Problem]:
    """A zone has an area: stated, or else drawn by the map."""
    if parts.map_failed:
        return
    for zone in parts.zones:
        if zone.data.get("area_ha") is None and zone.value.outline is None:
            found = f"zone {zone.value.id} has no area"
            mend = "state area_ha, or draw the zone in map.geojson"
            yield error("area-missing", zone.at("area_ha"), found, "area_ha, or an outline on the map", mend)


def areas_are_likely(parts: ClientParts) -> Iterator[Problem]:
    """A very large zone is more often a slip of unit than a zone."""
    for zone in parts.zones:
        if zone.value.area_ha > limits().zone_area_unlikely_ha:
            area = Figure(f"{zone.value.area_ha:g}")
            found = phrase("zone {zone} has {area} ha", zone=zone.value.id, area=area)
            expected = phrase("hectares, seldom over {most}", most=Figure(f"{limits().zone_area_unlikely_ha:g}"))
            mend = phrase("check the unit, or split the zone")
            yield warning("area-unlikely", zone.at("area_ha"), found, expected, mend)


def areas_suit_the_protocol(parts: ClientParts) -> Iterator[Problem]:
    """One composite stands for no more land than its protocol allows, but for a written reason."""
    for zone in parts.zones:
        for word in dict.fromkeys(zone.value.protocols):
            protocol = parts.protocols.get(word)
            if protocol is None or protocol.reasons.get("area"):
                continue
            area, largest = zone.value.area_ha, protocol.largest_area_ha
            if area <= largest:
                continue
            report = warning if area <= largest * (1 + limits().area_over_share) else error
            found = phrase(
                "zone {zone} has {area} ha under protocol {protocol}",
                zone=zone.value.id,
                area=Figure(f"{area:g}"),
                protocol=word,
            )
            expected = phrase("at most {area} ha", area=Figure(f"{largest:g}"))
            mend = phrase(
                "split the zone, or write under the protocol's reasons: {area: ...} why one composite will do"
            )
            yield report("zone-too-large", zone.at("area_ha"), found, expected, mend)
