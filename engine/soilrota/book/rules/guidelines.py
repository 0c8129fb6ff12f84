"""Guideline sets: own ones are sound and stand beside the shipped ones; clients choose sets and goals that exist."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from soilrota.book.parts import ClientParts, Located, SharedParts
from soilrota.book.rules.references import unknown
from soilrota.guidelines.choosing import default_set, goals_of, known_sets
from soilrota.guidelines.set_problems import set_problems
from soilrota.guidelines.sets import guideline_sets
from soilrota.model.client import Zone
from soilrota.model.guideline import GuidelineSet
from soilrota.problems import Problem, error


def own_sets_are_sound(parts: SharedParts) -> Iterator[Problem]:
    """Each row of the practice's own sets can be used, and says one thing of one value."""
    for own in parts.guidelines:
        yield from set_problems(own.value)


def overridden_sets_exist(parts: SharedParts) -> Iterator[Problem]:
    """An own set overrides a shipped one, each at most once, and takes the id of one only where it overrides it."""
    taken: dict[str, str] = {}
    for own in parts.guidelines:
        word = own.value.overrides
        if word and word not in guideline_sets():
            yield unknown("unknown-guideline", own.at("overrides"), "guideline set", word, guideline_sets())
        elif word in taken:
            found = f"{word} is overridden by {taken[word]} too"
            yield error("overridden-twice", own.at("overrides"), found, "one set over another", "join the two files")
        elif word:
            taken[word] = own.value.id
        if own.value.id in guideline_sets() and word != own.value.id:
            found, expected = f"the set {own.value.id} has the id of a shipped one", "an id of its own"
            mend = f"rename the file, or write 'overrides: {own.value.id}'"
            yield error("id-of-shipped-set", own.at(), found, expected, mend)


def chosen_sets_exist(parts: ClientParts) -> Iterator[Problem]:
    """The sets that the client, its farms and its zones choose exist, and are for choosing."""
    for owner, _ in _choosers(parts):
        word = owner.data.get("guideline")
        if word is None:
            continue
        known = known_sets(parts.shared.practice)
        choices = [name for name, one in known.items() if not one.always]
        if word not in known:
            yield unknown("unknown-guideline", owner.at("guideline"), "guideline set", word, choices)
        elif known[word].always:
            found = f"the set {word} holds always and is not for choosing"
            mend = "leave it out, or name a set that is for choosing"
            yield error("guideline-holds-always", owner.at("guideline"), found, "", mend)


def chosen_goals_are_served(parts: ClientParts) -> Iterator[Problem]:
    """A yield goal is served by the set of a zone that it is chosen for; nothing is said where a set is not known."""
    for owner, zones in _choosers(parts):
        goal = owner.data.get("yield_goal")
        if goal is None:
            continue
        names = {name for zone in zones if (name := _named_for(parts, zone))}
        if names <= set(known_sets(parts.shared.practice)):
            served = {one for zone in zones if (found := _set_of(parts, zone)) for one in goals_of(found)}
            if goal not in served:
                yield unknown("unknown-yield-goal", owner.at("yield_goal"), "yield goal", goal, served)


def _choosers(parts: ClientParts) -> Iterator[tuple[Located[Any], tuple[Zone, ...]]]:
    """Yield what may choose, the client, its farms and its zones, each with the zones that its choice holds for."""
    zones = tuple(zone.value for zone in parts.zones)
    yield parts.file, zones
    for farm in parts.farms:
        yield farm, tuple(zone for zone in zones if zone.farm == farm.value.id)
    for zone in parts.zones:
        yield zone, (zone.value,)


def _named_for(parts: ClientParts, zone: Zone) -> str:
    """Return the id of the set that was chosen for a zone; empty where none was."""
    farm = next((farm.value.guideline for farm in parts.farms if farm.value.id == zone.farm), "")
    return zone.guideline or farm or str(parts.file.data.get("guideline", ""))


def _set_of(parts: ClientParts, zone: Zone) -> GuidelineSet | None:
    """Return the set of a zone; None where there is none."""
    practice, data = parts.shared.practice, parts.file.data
    name = _named_for(parts, zone)
    if name:
        return known_sets(practice).get(name)
    return default_set(practice, data["country"], data.get("subdivision", ""), zone.land_use)
