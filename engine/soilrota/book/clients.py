"""From a client's file to the model: farms, zones, and what was agreed."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from soilrota.book.parts import Located
from soilrota.book.places import items
from soilrota.book.reminders import kinds
from soilrota.model.client import Blackout, Contact, Decision, Farm, Forebear, GapOverride, LastSampled, Zone
from soilrota.model.ground import AvoidedPlace, Outline, Position
from soilrota.model.layout import Rows
from soilrota.model.results import Target

#: Outlines by (farm, zone); the farm's own under (farm, "").
Outlines = Mapping[tuple[str, str], Outline]
#: Middles of clusters by (farm, zone).
FixedPoints = Mapping[tuple[str, str], Position]


def build_zones(
    farm: Located[Mapping[str, Any]], outlines: Outlines, fixed_points: FixedPoints | None = None
) -> tuple[Located[Zone], ...]:
    """Return the zones of one farm; an area that is not stated is taken from the outline, 0 where there is none."""
    farm_id = farm.data["id"]
    return tuple(item.holding(_zone(farm_id, item, outlines, fixed_points or {})) for item in items(farm, "zones"))


def _zone(farm: str, item: Located[Mapping[str, Any]], outlines: Outlines, fixed_points: FixedPoints) -> Zone:
    """Return one zone."""
    data = item.data
    outline = outlines.get((farm, data["id"]))
    return Zone(
        id=data["id"],
        farm=farm,
        name=data["name"],
        soil_type=data["soil_type"],
        texture=data.get("texture", ""),
        clay_percent=_number(data.get("clay_percent")),
        land_use=data["land_use"],
        landscape_position=data["landscape_position"],
        area_ha=float(data["area_ha"]) if "area_ha" in data else _drawn_area_ha(outline),
        rainfall_zone=data.get("rainfall_zone", ""),
        distance_to_water_m=_number(data.get("distance_to_water_m")),
        mixed_with=tuple(data.get("mixed_with", ())),
        outline=outline,
        protocols=tuple(data["protocols"]),
        last_sampled=tuple(sampling.value for sampling in build_last_sampled(item)),
        place=item.at(),
        rows=Rows(float(data["rows"]["spacing_cm"])) if "rows" in data else None,
        fixed_point=fixed_points.get((farm, data["id"])),
        follows=tuple(forebear.value for forebear in build_follows(item)),
        bulk_density=_number(data.get("bulk_density")),
        gravel_percent=_number(data.get("gravel_percent")),
        guideline=data.get("guideline", ""),
        yield_goal=data.get("yield_goal", ""),
    )


def _drawn_area_ha(outline: Outline | None) -> float:
    """Return the area of the outline [ha]; 0 without one, which the rule `area-missing` reports."""
    if outline is None:
        return 0.0
    from soilrota.geometry.measure import area_ha  # noqa: PLC0415 - loads shapely and pyproj, only for a map

    return area_ha(outline)


def _number(value: float | None) -> float | None:
    """Return a number as a float; None stays None."""
    return None if value is None else float(value)


def build_last_sampled(zone: Located[Any]) -> tuple[Located[LastSampled], ...]:
    """Return the samplings of one zone from before the book's records."""
    return tuple(
        item.holding(LastSampled(item.data["protocol"], date.fromisoformat(item.data["day"]), item.at()))
        for item in items(zone, "last_sampled")
    )


def build_follows(zone: Located[Any]) -> tuple[Located[Forebear], ...]:
    """Return the series that the zone's own follows, the latest first; a zone that names none follows itself."""
    written = (
        item.holding(
            Forebear(
                zones=tuple(item.data.get("zones", (zone.data["id"],))),
                since=date.fromisoformat(item.data["since"]),
                how=item.data["how"],
                place=item.at(),
            )
        )
        for item in items(zone, "follows")
    )
    return tuple(sorted(written, key=lambda forebear: forebear.value.since, reverse=True))


def build_farm(
    farm: Located[Mapping[str, Any]],
    zones: tuple[Located[Zone], ...],
    outlines: Outlines,
    access: Mapping[str, Position],
    avoided: Mapping[str, tuple[AvoidedPlace, ...]],
) -> Located[Farm]:
    """Return one farm with its zones and what the map draws of it."""
    data = farm.data
    return farm.holding(
        Farm(
            id=data["id"],
            name=data["name"],
            locality=data.get("locality", ""),
            boundary=outlines.get((data["id"], "")),
            access=access.get(data["id"]),
            avoided=avoided.get(data["id"], ()),
            zones=tuple(zone.value for zone in zones),
            place=farm.at(),
            station=data.get("weather", ""),
            guideline=data.get("guideline", ""),
            yield_goal=data.get("yield_goal", ""),
        )
    )


def build_contacts(file: Located[Mapping[str, Any]]) -> tuple[Contact, ...]:
    """Return the people of the client."""
    return tuple(
        Contact(
            item.data["name"],
            item.data["role"],
            item.data.get("email", ""),
            item.data.get("phone", ""),
            kinds(item.data),
        )
        for item in items(file, "contacts")
    )


def build_targets(file: Located[Mapping[str, Any]]) -> tuple[Located[Target], ...]:
    """Return the client's own targets."""
    return tuple(
        item.holding(
            Target(
                analyte=item.data["analyte"],
                method=item.data["method"],
                unit=item.data["unit"],
                low=_number(item.data.get("low")),
                high=_number(item.data.get("high")),
                land_uses=tuple(item.data.get("land_uses", ())),
                zones=tuple(item.data.get("zones", ())),
                top_cm=float(item.data["top_cm"]),
                bottom_cm=float(item.data["bottom_cm"]),
                source=item.data["source"],
                place=item.at(),
            )
        )
        for item in items(file, "targets")
    )


def build_decisions(file: Located[Mapping[str, Any]]) -> tuple[Located[Decision], ...]:
    """Return the days on which the client must decide something."""
    return tuple(
        item.holding(
            Decision(
                protocol=item.data["protocol"],
                zones=tuple(item.data.get("zones", ())),
                day=date.fromisoformat(item.data["day"]),
                what=item.data["what"],
                place=item.at(),
            )
        )
        for item in items(file, "decisions")
    )


def build_gap_overrides(file: Located[Mapping[str, Any]]) -> tuple[Located[GapOverride], ...]:
    """Return the waiting times that the client's file sets otherwise."""
    return tuple(
        item.holding(
            GapOverride(
                material_class=item.data["class"],
                months=item.data["months"],
                zones=tuple(item.data.get("zones", ())),
                protocols=tuple(item.data.get("protocols", ())),
                reason=item.data["reason"],
                place=item.at(),
            )
        )
        for item in items(file, "gap_overrides")
    )


def build_blackouts(file: Located[Mapping[str, Any]]) -> tuple[Located[Blackout], ...]:
    """Return the days on which the client wants nobody on the land."""
    return tuple(
        item.holding(
            Blackout(
                first=date.fromisoformat(item.data["first"]),
                last=date.fromisoformat(item.data["last"]),
                reason=item.data["reason"],
                zones=tuple(item.data.get("zones", ())),
                place=item.at(),
            )
        )
        for item in items(file, "blackouts")
    )
