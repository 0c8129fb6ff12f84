"""Which guideline sets hold for a zone: the chosen one, or the default there, and those that always hold."""

from __future__ import annotations

from soilrota.guidelines.sets import guideline_sets
from soilrota.model.client import Client, Farm, Zone
from soilrota.model.guideline import GuidelineRow, GuidelineSet
from soilrota.model.practice import Practice


def known_sets(practice: Practice) -> dict[str, GuidelineSet]:
    """Return every set that may be chosen by name: the practice's own first, which hide a shipped namesake."""
    own = practice.guidelines
    return {**own, **{name: one for name, one in guideline_sets().items() if name not in own}}


def chosen_set(client: Client, zone: Zone) -> GuidelineSet | None:
    """Return the set that was chosen for a zone, on itself, its farm or its client; else the default there.

    The default is the practice's own before a shipped one, one for the client's subdivision before one for its country,
    then the first by id. A set that the practice overrides is no default any more.

    Returns:
        The set; None where none was chosen and none is the default, or where the chosen one does not exist.
    """
    farm = _farm(client, zone)
    name = zone.guideline or (farm.guideline if farm else "") or client.guideline
    if name:
        return known_sets(client.practice).get(name)
    return default_set(client.practice, client.country, client.subdivision, zone.land_use)


def default_set(practice: Practice, country: str, subdivision: str, land_use: str) -> GuidelineSet | None:
    """Return the set that is taken where none was chosen; None where there is none for the region and land use.

    Args:
        practice: the practice, whose own sets come first.
        country: ISO 3166-1 code.
        subdivision: ISO 3166-2 subdivision without the country; may be empty.
        land_use: land use of the zone.
    """
    found = _in_order(practice, country, subdivision, land_use)
    return next((one for one in found if not one.always and one.countries), None)


def sets_for(client: Client, zone: Zone) -> tuple[GuidelineSet, ...]:
    """Return the sets that hold for a zone, the nearest first: of a result, the first that speaks of it is taken.

    First the chosen set, then those that always hold: the practice's own, those of the subdivision, of the country, of
    everywhere.
    """
    chosen = chosen_set(client, zone)
    found = _in_order(client.practice, client.country, client.subdivision, zone.land_use)
    always = (one for one in found if one.always and one is not chosen)
    return (*((chosen,) if chosen else ()), *always)


def goal_of(client: Client, zone: Zone, guideline: GuidelineSet) -> str:
    """Return the yield goal that was chosen for a zone, where the set serves it; else the set's own; may be empty."""
    farm = _farm(client, zone)
    goal = zone.yield_goal or (farm.yield_goal if farm else "") or client.yield_goal
    return goal if goal in goals_of(guideline) else guideline.goal


def goals_of(guideline: GuidelineSet) -> tuple[str, ...]:
    """Return the yield goals that the rows of a set name, in their order."""
    return tuple(dict.fromkeys(goal for row in guideline.rows for goal in row.goals))


def rows_for(guideline: GuidelineSet, analyte: str, method: str) -> tuple[GuidelineRow, ...]:
    """Return the rows of a set that speak of an analysis, in the order of the set."""
    return tuple(row for row in guideline.rows if (row.analyte, row.method) == (analyte, method))


def _farm(client: Client, zone: Zone) -> Farm | None:
    """Return the farm of a zone."""
    return next((farm for farm in client.farms if farm.id == zone.farm), None)


def _in_order(practice: Practice, country: str, subdivision: str, land_use: str) -> list[GuidelineSet]:
    """Return the sets for a region and a land use, without those that are overridden, the nearest first."""
    region = f"{country}-{subdivision}" if subdivision else country
    overridden = {one.overrides for one in practice.guidelines.values() if one.overrides != one.id}

    def rank(one: GuidelineSet) -> tuple[bool, int, str]:
        """Return where a set stands: own first, the nearest region first, then by id."""
        distance = 2 if not one.countries else 0 if region in one.countries else 1
        return not one.is_own, distance, one.id

    there = (
        one
        for one in known_sets(practice).values()
        if one.id not in overridden
        and (not one.countries or {country, region} & set(one.countries))
        and (not one.land_uses or land_use in one.land_uses)
    )
    return sorted(there, key=rank)
