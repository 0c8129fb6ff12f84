"""How much lime by pH and soil, as each region publishes it: targets, dressings, factors and tables.

What is worked out from the pH of a buffer, or from acidity, stands in `lime_buffers`; both read `lime_rules.yaml`.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from soilrota.guidelines.cited import Cited, cited, shipped_table

TABLE = "lime_rules"
_VICTORIA = "south-west-victoria"
_NEW_SOUTH_WALES = "new-south-wales"


@dataclass(frozen=True, slots=True)
class LimeTarget:
    """Where liming starts and what it aims at.

    Attributes:
        id: its id, for instance `uk-arable-mineral`.
        country: ISO 3166-1 code.
        system: use of the land, in words.
        soil: soil or layer, in words.
        method: method of pH in the glossary, `water` or `cacl2`; the two are never converted.
        act_below: liming starts below this [pH].
        target: what it aims at [pH]; None where the source prints none.
        cited: where it comes from.
    """

    id: str
    country: str
    system: str
    soil: str
    method: str
    act_below: float
    target: float | None
    cited: Cited


@dataclass(frozen=True, slots=True)
class Dressing:
    """What one dressing of lime may hold.

    Attributes:
        id: its id, for instance `uk-grass`.
        land: on what.
        depth_cm: depth that the rate is meant for [cm]; None where the source prints none.
        least: less than this is not worth spreading [t/ha]; None where the source prints none.
        most: more than this is split, or worked in, as the note says [t/ha].
        cited: where it comes from.
    """

    id: str
    land: str
    depth_cm: float | None
    least: float | None
    most: float
    cited: Cited


@dataclass(frozen=True, slots=True)
class LimeRule:
    """What a rule's rates are counted in.

    Attributes:
        id: its id, for instance `oregon-sikora`.
        name: printed name.
        unit: unit of its rates, for instance `t/ha` or `short ton/ac`.
        product: the lime that they count in, in words.
        cited: where it comes from.
    """

    id: str
    name: str
    unit: str
    product: str
    cited: Cited


@cache
def lime_targets() -> dict[str, LimeTarget]:
    """Return every target by its id.

    >>> target = lime_targets()["uk-arable-mineral"]
    >>> target.act_below, target.target
    (6.5, 6.7)
    """
    return {
        row["id"]: LimeTarget(
            id=row["id"],
            country=row["country"],
            system=row["system"],
            soil=row["soil"],
            method=row["method"],
            act_below=float(row["act_below"]),
            target=None if row["target"] is None else float(row["target"]),
            cited=cited(TABLE, row),
        )
        for row in shipped_table(TABLE)["targets"]
    }


@cache
def dressings() -> dict[str, Dressing]:
    """Return what one dressing may hold, by id."""
    return {
        row["id"]: Dressing(
            row["id"], row["land"], row["depth_cm"], row["least"], float(row["most"]), cited(TABLE, row)
        )
        for row in shipped_table(TABLE)["dressings"]
    }


@cache
def lime_rules() -> dict[str, LimeRule]:
    """Return what the rates of every rule are counted in, by the rule's id."""
    return {
        row["id"]: LimeRule(row["id"], row["name"], row["unit"], row["product"], cited(TABLE, row))
        for row in shipped_table(TABLE)["rules"]
    }


@cache
def rule_row(rule: str) -> Mapping[str, Any]:
    """Return the figures of a rule.

    Raises:
        KeyError: there is no such rule: a fault of the program.
    """
    rows: list[dict[str, Any]] = shipped_table(TABLE)["rules"]
    return {row["id"]: row for row in rows}[rule]


def lime_factor(rule: str, texture: str, land: str = "any") -> float | None:
    """Return the lime that lifts pH by one unit, by texture [t/ha]; None where the rule does not name the texture.

    Args:
        rule: `uk-factor` or `south-australia`; both are unverified.
        texture: field texture, as zones have it.
        land: `arable` or `grass` in the United Kingdom, `any` elsewhere.

    Raises:
        KeyError: the rule has no factors, or none for that land: a fault of the program.

    >>> lime_factor("uk-factor", "sandy-loam", "arable")
    7.0
    """
    row = _of_texture(rule_row(rule)["factors"], texture)
    return None if row is None else float(row[land])


def lime_nv(rule: str) -> float:
    """Return the neutralising value that a rule's rates count in [% as CaO]; scale by it over the product's own.

    Raises:
        KeyError: the rule states none: a fault of the program.
    """
    return float(rule_row(rule)["nv"])


def victoria_rise(texture: str) -> float | None:
    """Return by how much 1 t/ha of pure lime lifts the pH of 10 cm in South-West Victoria; None for other textures.

    Source: Southern Farming Systems, Lime applications: how much should I apply?

    Args:
        texture: field texture, as zones have it.
    """
    row = _of_texture(rule_row(_VICTORIA)["rises"], texture)
    return None if row is None else float(row["rise"])


def victoria_lime(texture: str, rise: float, organic_carbon: float | None = None) -> float | None:
    """Return the pure lime for one layer of 10 cm in South-West Victoria [t/ha]; None for other textures.

    Source: Southern Farming Systems, Lime applications: how much should I apply?

    Args:
        texture: field texture, as zones have it.
        rise: pH that it is to be lifted by; nought or less needs nothing.
        organic_carbon: organic carbon [%]; where it is above 1.2 the soil needs more. None for not known.

    >>> round(victoria_lime("clay-loam", 1.0), 2)
    2.7
    """
    each = victoria_rise(texture)
    if each is None:
        return None
    if rise <= 0:
        return 0.0
    carbon = rule_row(_VICTORIA)["carbon"]
    more = carbon["more"] if organic_carbon is not None and organic_carbon > carbon["above"] else 0.0
    return float(rise / each + more)


def new_south_wales_lime(capacity: float) -> Mapping[tuple[float, float], float] | None:
    """Return the fine lime by the pH (CaCl2) that it starts from and ends at [t/ha]; None outside the table.

    Source: New South Wales Department of Primary Industries, Agfact AC.19 (unverified). Between printed capacities the
    rate lies on the straight line between theirs: common practice, no source.

    Args:
        capacity: effective cation exchange capacity [cmol(+)/kg], from 1 to 15.

    >>> new_south_wales_lime(5)[4.3, 5.2]
    2.5
    """
    row = rule_row(_NEW_SOUTH_WALES)
    rates = between(capacity, [(line["capacity"], line["rates"]) for line in row["capacities"]])
    if rates is None:
        return None
    return dict(zip(zip(row["starts"], row["ends"], strict=True), rates, strict=True))


def between(at: float, lines: list[tuple[float, list[float]]]) -> list[float] | None:
    """Return a line of a table read at a place between two printed ones; None outside the table.

    Args:
        at: where it is read.
        lines: the printed places, ascending, with their figures.
    """
    places = [place for place, _ in lines]
    if not places[0] <= at <= places[-1]:
        return None
    upper = bisect_left(places, at)
    if places[upper] == at:
        return [float(figure) for figure in lines[upper][1]]
    (left, below), (right, above) = lines[upper - 1], lines[upper]
    share = (at - left) / (right - left)
    return [low + share * (high - low) for low, high in zip(below, above, strict=True)]


def _of_texture(rows: list[dict[str, Any]], texture: str) -> dict[str, Any] | None:
    """Return the row that names a texture; None where none does."""
    return next((row for row in rows if texture in row["textures"]), None)
