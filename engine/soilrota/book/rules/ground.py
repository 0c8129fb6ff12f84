"""The map: where it lies, and how its outlines lie to one another. Loaded only where a client has a map."""

from __future__ import annotations

from collections.abc import Iterator
from functools import reduce
from itertools import combinations

from soilrota.book.limits import limits
from soilrota.book.parts import ClientParts, Feature, Located
from soilrota.geometry.measure import area_ha, covered_share, distance_km, extent_km, inside, overlap_ha
from soilrota.geometry.validity import shape_fault
from soilrota.language import Figure, phrase
from soilrota.model.ground import Outline, Position, Ring
from soilrota.model.practice import Hemisphere
from soilrota.problems import Problem, error, warning

_SQUARE_METRES_A_HECTARE = 10_000
_LATITUDE_MOST = 90
_SWAP = phrase("write longitude before latitude, as RFC 7946 asks")


def map_rules(parts: ClientParts) -> Iterator[Problem]:
    """Check every outline by itself, and only where all are sound how they lie to one another."""
    alone = [problem for feature in parts.features for problem in _alone(feature, parts.hemisphere)]
    yield from alone
    unsound = {problem.place for problem in alone}
    sound = [feature for feature in parts.features if feature.at("geometry") not in unsound]
    yield from zones_lie_on_their_farm(sound)
    yield from places_lie_near_their_farm(sound)
    yield from fixed_points_lie_in_their_zone(sound)
    yield from zones_lie_apart(sound)
    yield from areas_agree(parts, sound)
    yield from zones_lie_on_one_ground(parts, sound)


def _alone(feature: Located[Feature], hemisphere: Hemisphere) -> Iterator[Problem]:
    """Yield what is wrong with one feature by itself: its side of the equator, its size, its rings."""
    place = feature.at("geometry")
    mean = _mean_position(feature.value)
    if not _on_side(mean, hemisphere):
        swapped = abs(mean[0]) <= _LATITUDE_MOST and _on_side((mean[1], mean[0]), hemisphere)
        found = f"{_name(feature.value)} lies at {_words(mean)}, not on the {hemisphere} side of the equator"
        mend = _SWAP if swapped else "correct the coordinates, or the client's hemisphere"
        yield error("wrong-hemisphere", place, found, f"a latitude on the {hemisphere} side", mend)
        return
    outline = feature.value.outline
    if outline is None:
        return
    if extent_km(outline) > limits().extent_km:
        found = f"{_name(feature.value)} is {extent_km(outline):.0f} km across"
        mend = "correct the position that lies far from the others"
        yield error("outline-too-large", place, found, f"at most {limits().extent_km:g} km", mend)
        return
    fault = shape_fault(outline)
    if fault is not None:
        where = f" at {_words(fault.position)}" if fault.position else ""
        found = f"{_name(feature.value)}: {fault.what}{where}"
        yield error("outline-crosses-itself", place, found, "rings that do not cross", "move the corner that is wrong")


def _mean_position(feature: Feature) -> Position:
    """Return the mean of a feature's positions: good enough to tell sides and swaps."""
    positions = [position for ring in feature.positions for position in ring]
    return sum(x for x, _ in positions) / len(positions), sum(y for _, y in positions) / len(positions)


def _on_side(position: Position, hemisphere: Hemisphere) -> bool:
    """Return whether the position lies on that side of the equator; on it, both will do."""
    return position[1] >= 0 if hemisphere is Hemisphere.NORTHERN else position[1] <= 0


def _surfaces(features: list[Located[Feature]], kind: str) -> list[tuple[Located[Feature], Outline]]:
    """Return the features of a kind that have an outline, with it."""
    return [(one, one.value.outline) for one in features if one.value.kind == kind and one.value.outline is not None]


def zones_lie_on_their_farm(features: list[Located[Feature]]) -> Iterator[Problem]:
    """A zone lies inside its farm's boundary, where the map draws one."""
    farms = {farm.value.farm: outline for farm, outline in _surfaces(features, "farm")}
    for zone, outline in _surfaces(features, "zone"):
        farm = farms.get(zone.value.farm)
        outside = 1 - covered_share(outline, farm) if farm is not None else 0.0
        if farm is None or outside <= limits().outside_farm_warning:
            continue
        report = error if outside > limits().outside_farm_error else warning
        found = phrase(
            "{share} of zone {zone} lies outside the boundary of farm {farm}",
            share=Figure(f"{outside:.1%}"),
            zone=zone.value.zone,
            farm=zone.value.farm,
        )
        mend = _SWAP if _swapped(zone.value, farm) else phrase("correct the zone's outline, or the farm's")
        yield report("zone-outside-farm", zone.at("geometry"), found, phrase("a zone inside its farm"), mend)


def places_lie_near_their_farm(features: list[Located[Feature]]) -> Iterator[Problem]:
    """Access points, places to avoid and units of ground lie on or beside their farm, where the map draws it."""
    farms = {farm.value.farm: outline for farm, outline in _surfaces(features, "farm")}
    for feature in features:
        farm = farms.get(feature.value.farm)
        if farm is None or feature.value.kind in {"farm", "zone"}:
            continue
        far = min(distance_km(farm, position) for ring in feature.value.positions for position in ring)
        if far > limits().far_from_farm_km:
            found = f"{_name(feature.value)} lies {far:.0f} km from farm {feature.value.farm}"
            mend = _SWAP if _swapped(feature.value, farm) else "correct the coordinates, or the farm that it names"
            yield error("far-from-farm", feature.at("geometry"), found, "a place on or beside the farm", mend)


def fixed_points_lie_in_their_zone(features: list[Located[Feature]]) -> Iterator[Problem]:
    """The middle of a cluster of cores lies in its zone, where the map draws it."""
    zones = {(zone.value.farm, zone.value.zone): outline for zone, outline in _surfaces(features, "zone")}
    for feature in features:
        value = feature.value
        zone = zones.get((value.farm, value.zone)) if value.kind == "fixed-point" else None
        if zone is not None and not inside(value.positions[0][0], zone):
            longitude, latitude = value.positions[0][0]
            found = phrase(
                "the fixed point of zone {zone} lies outside it, at longitude {longitude}, latitude {latitude}",
                zone=value.zone,
                longitude=f"{longitude:.6f}",
                latitude=f"{latitude:.6f}",
            )
            mend = phrase("correct its position, or the zone that it names")
            yield warning(
                "fixed-point-outside-zone", feature.at("geometry"), found, phrase("a point in its zone"), mend
            )


def _swapped(feature: Feature, farm: Outline) -> bool:
    """Return whether the feature would lie at its farm with longitude and latitude swapped."""
    positions: Ring = tuple((y, x) for ring in feature.positions for x, y in ring)
    on_earth = all(abs(y) <= _LATITUDE_MOST for _, y in positions)
    near = limits().far_from_farm_km
    return on_earth and any(distance_km(farm, position) <= near for position in positions)


def zones_lie_apart(features: list[Located[Feature]]) -> Iterator[Problem]:
    """Zones of a farm do not overlap by more than the thickness of a line."""
    for (one, first), (other, second) in combinations(_surfaces(features, "zone"), 2):
        if one.value.farm != other.value.farm or one.value.zone == other.value.zone:
            continue
        common = overlap_ha(first, second)
        smaller = min(area_ha(first), area_ha(second))
        if common > max(limits().overlap_share * smaller, limits().overlap_m2 / _SQUARE_METRES_A_HECTARE):
            found = f"zones {one.value.zone} and {other.value.zone} overlap by {common:.3g} ha"
            mend = "move the edge of one of them"
            yield error("zones-overlap", other.at("geometry"), found, "zones apart", mend)


def areas_agree(parts: ClientParts, features: list[Located[Feature]]) -> Iterator[Problem]:
    """A stated area agrees with the drawn one."""
    zones = parts.zones_by_name()
    for feature, outline in _surfaces(features, "zone"):
        zone = zones.get(f"{feature.value.farm}/{feature.value.zone}")
        stated = zone.data.get("area_ha") if zone else None
        drawn = area_ha(outline)
        if zone is None or stated is None or abs(stated - drawn) <= limits().area_differs_warning * drawn:
            continue
        report = error if abs(stated - drawn) > limits().area_differs_error * drawn else warning
        found = phrase(
            "zone {zone} is stated with {stated} ha and drawn with {drawn} ha",
            zone=zone.value.id,
            stated=Figure(f"{stated:g}"),
            drawn=Figure(f"{drawn:.4g}"),
        )
        mend = phrase("correct one of them, or leave area_ha out")
        yield report("area-differs", zone.at("area_ha"), found, phrase("areas that agree"), mend)


def zones_lie_on_one_ground(parts: ClientParts, features: list[Located[Feature]]) -> Iterator[Problem]:
    """A zone of which more than a tenth lies on differing soil, land use or position, by the map's units, is mixed."""
    zones = parts.zones_by_name()
    for feature, outline in _surfaces(features, "zone"):
        zone = zones.get(f"{feature.value.farm}/{feature.value.zone}")
        if zone is None:
            continue
        shares: dict[str, float] = {}
        for kind, name in (("soil", "soil_type"), ("land-use", "land_use"), ("landscape", "landscape_position")):
            for unit, ground in _surfaces(features, kind):
                word = str(unit.data["properties"].get(name, ""))
                if word.casefold() != str(getattr(zone.value, name)).casefold():
                    shares[word] = shares.get(word, 0.0) + covered_share(outline, ground)
        mixed = [
            phrase("{ground} on {share}", ground=word, share=f"{share:.0%}")
            for word, share in shares.items()
            if share > limits().mixed_share
        ]
        if mixed:
            parts_of_it = reduce(lambda before, last: phrase("{before}, {last}", before=before, last=last), mixed)
            found = phrase("zone {zone} is mixed by the map: {parts}", zone=zone.value.id, parts=parts_of_it)
            mend = phrase("split the zone along the units, so that each composite stands for one kind of ground")
            expected = phrase("one soil, land use and position")
            yield warning("zone-mixed", feature.at("geometry"), found, expected, mend)


def _name(feature: Feature) -> str:
    """Return what the feature is, in words."""
    named = {
        "farm": f"farm {feature.farm}",
        "zone": f"zone {feature.zone}",
        "fixed-point": f"the fixed point of zone {feature.zone}",
    }
    return named.get(feature.kind, f"the {feature.kind} feature of farm {feature.farm}")


def _words(position: Position) -> str:
    """Return a position in words."""
    return f"longitude {position[0]:.6f}, latitude {position[1]:.6f}"
