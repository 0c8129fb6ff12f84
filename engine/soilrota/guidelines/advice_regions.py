"""Which rule of lime holds where, with its aims and dressings; and further house figures of lime and gypsum."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from soilrota.guidelines.cited import Cited, cited, shipped_table
from soilrota.guidelines.lime_rules import Dressing, LimeTarget, dressings, lime_targets

_TABLE = "advice_regions"
#: The soil of an aim that holds for every soil.
ANY_SOIL = "any"


@dataclass(frozen=True, slots=True)
class Aim:
    """Where liming starts and what it lifts to.

    Attributes:
        id: of a row of the targets, or of the aims.
        method: method of pH in the glossary.
        act_below: liming starts below this [pH].
        target: what it lifts to [pH]; None where the source prints none.
        cited: where it comes from.
    """

    id: str
    method: str
    act_below: float
    target: float | None
    cited: Cited


@dataclass(frozen=True, slots=True)
class LimeRegion:
    """Which rule of lime holds on some ground.

    Attributes:
        id: its id.
        country: ISO 3166-1 code.
        rule: id of the rule in `lime_rules`; empty where none was read.
        land: column of the rule's factors, for instance `arable`; `any` where it has one.
        method: method of pH that the rule is meant for; never converted.
        by_layer: whether the rule limes the layer that was sampled; else its own depth.
        pure_share: what the rule's lime holds of pure calcium carbonate [-].
        topsoil: aims of the topsoil by soil, `mineral`, `peaty` or `any`; empty where none was read.
        below: aim of the layers below, with the depths that it holds between [cm]; None where none was read.
        dressings: what one dressing may hold, by texture; the empty texture stands for all others.
        dressing_share: what the lime of the dressings holds of pure calcium carbonate [-].
        over: what is done above that: `split`, or `incorporate` where the land is cultivated.
        borrowed: whose dressings are taken, where the region prints none; empty otherwise.
        cited: what stands behind the choice; unverified where the rule is.
    """

    id: str
    country: str
    rule: str
    land: str
    method: str
    by_layer: bool
    pure_share: float
    topsoil: Mapping[str, Aim]
    below: tuple[float, float, Aim] | None
    dressings: Mapping[str, Dressing]
    dressing_share: float
    over: str
    borrowed: str
    cited: Cited

    def aim(self, soil: str) -> Aim | None:
        """Return the aim of the topsoil of a soil; None where none was read."""
        return self.topsoil.get(soil) or self.topsoil.get(ANY_SOIL)

    def dressing(self, texture: str) -> Dressing | None:
        """Return what one dressing may hold on a texture; None where the region has no rule."""
        return self.dressings.get(texture) or self.dressings.get("")


@dataclass(frozen=True, slots=True)
class GypsumDressing:
    """What one dressing of gypsum may hold [t/ha of pure gypsum], and how many there may be [-]."""

    most: float
    dressings: int
    cited: Cited


def lime_region(country: str, subdivision: str, land_use: str) -> LimeRegion | None:
    """Return which rule of lime holds; None where the table knows none.

    Args:
        country: ISO 3166-1 code.
        subdivision: ISO 3166-2 part without the country; may be empty.
        land_use: as zones have it.

    >>> lime_region("AU", "VIC", "pasture").rule
    'south-west-victoria'
    """
    for row in shipped_table(_TABLE)["lime"]:
        if _is_of(row, country, subdivision) and land_use in row.get("land_uses", (land_use,)):
            return _region(row["id"])
    return None


def fineness_scheme(country: str, subdivision: str) -> str:
    """Return the scheme of fineness that holds, `western-australia` or `new-york`; empty where none was read."""
    rows = shipped_table(_TABLE)["fineness"]
    return next((row["scheme"] for row in rows if _is_of(row, country, subdivision)), "")


def sieve_opening(meshes: int) -> float:
    """Return the opening of a sieve by its meshes an inch [mm]; from memory.

    Raises:
        KeyError: the table has no such sieve: a fault of the program.
    """
    return float(shipped_table(_TABLE)["sieves"][meshes])


def sieves_cited() -> Cited:
    """Return what stands behind the openings of sieves."""
    return cited(_TABLE, shipped_table(_TABLE)["sieves"])


def most_dressings() -> int:
    """Return how many dressings of lime there may be from one sampling [-]."""
    return int(shipped_table(_TABLE)["most_dressings"]["value"])


def alone_share() -> float:
    """Return how far a factor by texture may be off where it has no neighbouring class [-]."""
    return float(shipped_table(_TABLE)["texture_doubt"]["alone_percent"]) / 100


def neighbours_of(texture: str) -> tuple[str, str] | None:
    """Return the textures that one lies between, where a rule does not name it; None for others.

    >>> neighbours_of("loam")
    ('sandy-loam', 'clay-loam')
    """
    pair = shipped_table(_TABLE)["between"]["textures"].get(texture)
    return None if pair is None else (pair[0], pair[1])


@cache
def gypsum_dressing() -> GypsumDressing:
    """Return what one dressing of gypsum may hold."""
    row = shipped_table(_TABLE)["gypsum"]
    return GypsumDressing(float(row["one_dressing"]), int(row["most_dressings"]), cited(_TABLE, row))


def acid_produce(crop: str, leaves: str) -> str | None:
    """Return the row of `acid_balance` that produce belongs to; None where there is none.

    Args:
        crop: as the cropping plan has it; hyphens and capitals do not count.
        leaves: what leaves the field; empty for what is usual.

    >>> acid_produce("Winter wheat", ""), acid_produce("wheat", "hay"), acid_produce("gold", "")
    ('wheat', 'cereal-whole-tops', None)
    """
    name, what = _plain(crop), _plain(leaves)
    for row in shipped_table(_TABLE)["produce"]:
        if name in row["crops"] and what in row["leaves"]:
            return str(row["row"])
    return None


@cache
def _region(region: str) -> LimeRegion:
    """Return a row of the table by its id."""
    row = next(row for row in shipped_table(_TABLE)["lime"] if row["id"] == region)
    below = row.get("below")
    return LimeRegion(
        id=row["id"],
        country=row["country"],
        rule=row["rule"],
        land=row.get("land", "any"),
        method=row["method"],
        by_layer=row.get("depth") == "layer",
        pure_share=row.get("pure_percent", 100) / 100,
        topsoil={soil: _aim(aim) for soil, aim in row["topsoil"].items()},
        below=(float(below["from_cm"]), float(below["to_cm"]), _aim(below["aim"])) if below else None,
        dressings={
            texture: dressings()[one["dressing"]]
            for one in row.get("dressings", ())
            for texture in one["textures"] or ("",)
        },
        dressing_share=row.get("dressing_pure_percent", row.get("pure_percent", 100)) / 100,
        over=row.get("over", "split"),
        borrowed=row.get("borrowed", ""),
        cited=cited(_TABLE, row),
    )


def _aim(id_: str) -> Aim:
    """Return an aim: a row of the printed targets, or one of this table."""
    printed: LimeTarget | None = lime_targets().get(id_)
    if printed is not None:
        return Aim(id_, printed.method, printed.act_below, printed.target, printed.cited)
    row: dict[str, Any] = next(row for row in shipped_table(_TABLE)["aims"] if row["id"] == id_)
    return Aim(id_, row["method"], float(row["act_below"]), float(row["target"]), cited(_TABLE, row))


def _is_of(row: Mapping[str, Any], country: str, subdivision: str) -> bool:
    """Return whether a row holds in a part of a country."""
    return row["country"] == country and subdivision in row.get("subdivisions", (subdivision,))


def _plain(text: str) -> str:
    """Return a name without case, and with one space for every gap."""
    return " ".join(text.casefold().replace("-", " ").split())
