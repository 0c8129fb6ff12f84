"""References: every name that a file gives leads somewhere; beside one that does not stands the nearest that does."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from soilrota.book.parts import ClientParts, Located, SharedParts
from soilrota.files import nearest_name
from soilrota.model.client import Blackout, Decision, GapOverride
from soilrota.model.cropping import CropYear
from soilrota.model.protocol import Protocol
from soilrota.model.results import Result, Target
from soilrota.model.samples import FieldNote
from soilrota.problems import Place, Problem, error

_MOST_NAMES = 12


def unknown(code: str, place: Place, what: str, word: str, names: Iterable[str]) -> Problem:
    """Return the error that `word` names no `what`, with the names there are and the nearest of them."""
    there_are = sorted(set(names))
    nearest = nearest_name(word, there_are)
    expected = "one of " + ", ".join(there_are) if 0 < len(there_are) <= _MOST_NAMES else f"the id of a {what}"
    mend = f"write {nearest}" if nearest else f"name a {what} that exists, or declare it"
    return error(code, place, f"there is no {what} '{word}'", expected, mend)


def adviser_exists(parts: ClientParts) -> Iterator[Problem]:
    """The client's adviser is a person of the practice who has the role of adviser."""
    people = parts.shared.practice.people
    advisers = [person.id for person in people.values() if person.role == "adviser"]
    place = parts.file.at("adviser")
    person = people.get(parts.adviser)
    if person is None:
        yield unknown("unknown-adviser", place, "adviser", parts.adviser, advisers)
    elif person.role != "adviser":
        found = f"{person.id} has the role {person.role}"
        expected = "a person whose role is adviser"
        yield error("not-an-adviser", place, found, expected, "name an adviser, or give this person the role")


def samplers_exist(parts: ClientParts) -> Iterator[Problem]:
    """Those who may sample here are people of the practice who sample."""
    people = parts.shared.practice.people
    samplers = [person.id for person in people.values() if person.role == "sampler"]
    for number, word in enumerate(parts.file.data.get("samplers", ())):
        if word not in samplers:
            yield unknown("unknown-sampler", parts.file.at("samplers", number), "sampler", word, samplers)


def protocols_exist(parts: ClientParts) -> Iterator[Problem]:
    """Zones, earlier samplings, decisions, waiting times, notes and results name protocols that exist."""
    for word, place in _protocols_named(parts):
        if word not in parts.protocols:
            yield unknown("unknown-protocol", place, "protocol", word, parts.protocols)


def _protocols_named(parts: ClientParts) -> Iterator[tuple[str, Place]]:
    """Yield every protocol id that the client's files name, with its place."""
    for zone in parts.zones:
        yield from ((word, zone.at("protocols", i)) for i, word in enumerate(zone.value.protocols))
    yield from ((sampling.value.protocol, sampling.at("protocol")) for _, sampling in parts.last_sampled)
    yield from ((decision.value.protocol, decision.at("protocol")) for decision in parts.decisions)
    for override in parts.gap_overrides:
        yield from ((word, override.at("protocols", i)) for i, word in enumerate(override.value.protocols))
    yield from ((note.value.protocol, note.at("protocol")) for note in parts.field_notes)
    yield from ((result.value.protocol, result.at("protocol")) for result in parts.results)


def zones_exist(parts: ClientParts) -> Iterator[Problem]:
    """Targets, decisions, waiting times and blackouts name zones as `farm/zone`, and those exist."""
    names = parts.zone_names()
    owners: tuple[Located[Target] | Located[Decision] | Located[GapOverride] | Located[Blackout], ...]
    owners = (*parts.targets, *parts.decisions, *parts.gap_overrides, *parts.blackouts)
    for owner in owners:
        for i, word in enumerate(owner.value.zones):
            if word not in names:
                yield unknown("unknown-zone", owner.at("zones", i), "zone", word, names)


def ground_of_records_exists(parts: ClientParts) -> Iterator[Problem]:
    """Every row of a record names a farm, and zones of that farm, that exist or that a zone follows."""
    former = {farm.value.id: parts.former_zones_of(farm.value.id) for farm in parts.farms}
    for record in parts.applications:
        farm, zones = record.value.farm, record.value.zones
        yield from _ground(parts, farm, zones, record.at("farm"), record.at("zones"), former=former.get(farm, ()))
    rows: tuple[Located[FieldNote] | Located[CropYear] | Located[Result], ...]
    rows = (*parts.field_notes, *parts.cropping, *parts.results)
    for row in rows:
        farm, zones = row.value.farm, (row.value.zone,)
        yield from _ground(parts, farm, zones, row.at("farm"), row.at("zone"), former=former.get(farm, ()))


def ground_of_map_exists(parts: ClientParts) -> Iterator[Problem]:
    """Every feature of the map names a farm, and a zone of that farm, that exist."""
    for feature in parts.features:
        zones = (feature.value.zone,) if feature.value.kind in {"zone", "fixed-point"} else ()
        farm_place, zone_place = feature.at("properties", "farm"), feature.at("properties", "zone")
        yield from _ground(parts, feature.value.farm, zones, farm_place, zone_place)


def _ground(
    parts: ClientParts,
    farm: str,
    zones: Iterable[str],
    farm_place: Place,
    zone_place: Place,
    *,
    former: tuple[str, ...] = (),
) -> Iterator[Problem]:
    """Yield what is unknown of a farm and its zones, former ones included where they are given."""
    farms = [one.value.id for one in parts.farms]
    if farm not in farms:
        yield unknown("unknown-farm", farm_place, "farm", farm, farms)
        return
    there = (*parts.zones_of(farm), *former)
    for zone in zones:
        if zone not in there:
            yield unknown("unknown-zone", zone_place, f"zone of farm {farm}", zone, there)


def laboratories_exist(parts: ClientParts) -> Iterator[Problem]:
    """Results name a laboratory of the book."""
    laboratories = parts.shared.practice.laboratories
    for result in parts.results:
        if result.value.laboratory not in laboratories:
            yield unknown(
                "unknown-laboratory", result.at("laboratory"), "laboratory", result.value.laboratory, laboratories
            )


def own_protocols_lead_somewhere(parts: ClientParts) -> Iterator[Problem]:
    """The client's own protocols name a season and a laboratory that exist."""
    practice = parts.shared.practice
    yield from _seasons_and_laboratories(parts.own_protocols, practice.seasons, practice.laboratories)


def shared_protocols_lead_somewhere(parts: SharedParts) -> Iterator[Problem]:
    """The shared protocols name a season and a laboratory that exist."""
    practice = parts.practice.value
    yield from _seasons_and_laboratories(parts.protocols, practice.seasons, practice.laboratories)


def _seasons_and_laboratories(
    protocols: Iterable[Located[Protocol]], seasons: Iterable[str], laboratories: Iterable[str]
) -> Iterator[Problem]:
    """Yield the seasons and laboratories of protocols that do not exist."""
    for protocol in protocols:
        season, laboratory = protocol.value.season, protocol.value.laboratory
        if season not in seasons:
            yield unknown("unknown-season", protocol.at("season"), "season", season, seasons)
        if laboratory and laboratory not in laboratories:
            yield unknown("unknown-laboratory", protocol.at("laboratory"), "laboratory", laboratory, laboratories)


def stations_exist(parts: ClientParts) -> Iterator[Problem]:
    """A farm names a weather station of the practice."""
    for farm in parts.farms:
        word = farm.value.station
        if word and word not in parts.shared.practice.stations:
            yield unknown(
                "unknown-station", farm.at("weather"), "weather station", word, parts.shared.practice.stations
            )
