"""Repeats: an id names one thing, and a thing stands once."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator

from soilrota.book.parts import ClientParts, SharedParts
from soilrota.language import phrase
from soilrota.problems import Place, Problem, error, warning


def repeated(code: str, what: str, items: Iterable[tuple[Hashable, str, Place]], mend: str) -> Iterator[Problem]:
    """Yield an error for each item (key, name, place) whose key an earlier one has, naming the earlier's line."""
    for name, place, earlier in _again(items):
        yield error(code, place, f"{what} {name} stands already at {earlier}", f"each {what} once", mend)


def _again(items: Iterable[tuple[Hashable, str, Place]]) -> Iterator[tuple[str, Place, Place]]:
    """Yield name and place of each item (key, name, place) whose key an earlier one has, and the earlier's place."""
    first: dict[Hashable, Place] = {}
    for key, name, place in items:
        earlier = first.setdefault(key, place)
        if earlier is not place:
            yield name, place, earlier


def ids_are_unique(parts: ClientParts) -> Iterator[Problem]:
    """Farms, zones of a farm, and the client's protocols have different ids."""
    rename = "give one of them another id, or take it out"
    farms = [(farm.value.id, farm.value.id, farm.at("id")) for farm in parts.farms]
    zones = [((zone.value.farm, zone.value.id), zone.value.id, zone.at("id")) for zone in parts.zones]
    protocols = [(protocol.value.id, protocol.value.id, protocol.at("id")) for protocol in parts.own_protocols]
    yield from repeated("repeated-id", "farm", farms, rename)
    yield from repeated("repeated-id", "zone", zones, rename)
    yield from repeated("repeated-id", "protocol", protocols, rename)


def shared_ids_are_unique(parts: SharedParts) -> Iterator[Problem]:
    """People, seasons, stations, classes of gaps and shared protocols have different ids."""
    rename = "give one of them another id, or take it out"
    kinds = (
        ("person", parts.people),
        ("season", parts.seasons),
        ("station", parts.stations),
        ("protocol", parts.protocols),
    )
    for what, items in kinds:
        named = [(item.value.id, item.value.id, item.at("id")) for item in items]
        yield from repeated("repeated-id", what, named, rename)
    gaps = [(gap.value.material_class, gap.value.material_class, gap.at("class")) for gap in parts.gaps]
    yield from repeated("repeated-id", "waiting time for", gaps, "keep one of them")


def bags_are_unique(parts: ClientParts) -> Iterator[Problem]:
    """A bag id stands once in the field notes: one bag is one zone, one layer, one day.

    A warning, because a label that was really used twice cannot be mended: what it means follows the sample.
    """
    bags = [(note.value.bag, note.value.bag, note.at("bag")) for note in parts.field_notes if note.value.bag]
    mend = phrase("correct the bag id of one row, or take a doubled row out")
    for bag, place, earlier in _again(bags):
        found = phrase("bag {bag} stands already at {place}", bag=bag, place=earlier)
        yield warning("bag-repeated", place, found, phrase("each bag once"), mend)


def results_stand_once(parts: ClientParts) -> Iterator[Problem]:
    """A value stands once in an issue of a report; a later issue that says it again corrects it, and is no repeat.

    A warning, because both rows are used as they are.
    """
    values = [
        ((result.value.key, result.value.issue), f"{result.value.analyte}.{result.value.method}", result.at())
        for result in parts.results
    ]
    mend = phrase("take one of them out, or give the later one its issue")
    for analysis, place, earlier in _again(values):
        found = phrase("result {analysis} stands already at {place}", analysis=analysis, place=earlier)
        yield warning("result-repeated", place, found, phrase("each result once"), mend)


def notes_form_names_once(parts: SharedParts) -> Iterator[Problem]:
    """Another form of field notes has a heading for each column, and each of its words means one state."""
    form = parts.practice.value.notes_form
    if form is None:
        return
    at = parts.practice.at
    headings = [(heading, f"'{heading}'", at("field_notes", "columns", key)) for key, heading in form.columns.items()]
    yield from repeated("mapped-twice", "the heading", headings, "name another heading for one of them")
    words = [(word.casefold(), f"'{word}'", at("field_notes", "soil_state", word)) for word in form.soil_states]
    yield from repeated("mapped-twice", "the word", words, "keep one of them; capitals make no difference")


def map_draws_once(parts: ClientParts) -> Iterator[Problem]:
    """The map draws each farm, access point, zone and fixed point once; several parts are one MultiPolygon."""
    for kind in ("farm", "zone", "access", "fixed-point"):
        drawn = [
            (
                (feature.value.farm, feature.value.zone),
                "/".join(filter(None, (feature.value.farm, feature.value.zone))),
                feature.at("properties", _NAMED_BY[kind]),
            )
            for feature in parts.features
            if feature.value.kind == kind
        ]
        mend = "take one out, or draw both parts as one MultiPolygon"
        points = {"access": "the access of", "fixed-point": "the fixed point of"}
        mend = "take one out" if kind in points else mend
        yield from repeated("drawn-twice", points.get(kind, f"the {kind}"), drawn, mend)


#: The property that names what a feature stands for.
_NAMED_BY = {"farm": "farm", "zone": "zone", "access": "farm", "fixed-point": "zone"}
