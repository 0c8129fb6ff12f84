"""What a tonne of a liming product is worth: neutralising values and the schemes of fineness."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from math import inf

from soilrota.guidelines.cited import Cited, cited, shipped_table
from soilrota.model.products import SizeFraction

_TABLE = "lime_quality"


@cache
def pure_values() -> dict[str, float]:
    """Return the neutralising value of pure materials by formula, pure calcium carbonate being 100 [%].

    >>> pure_values()["MgCO3"]
    119.0
    """
    return {row["formula"]: float(row["nv"]) for row in shipped_table(_TABLE)["pure"]}


@cache
def quality_sources() -> dict[str, Cited]:
    """Return what stands behind each scheme: `pure`, `cao_basis`, `western_australia`, `new_york`, `ohio`."""
    table = shipped_table(_TABLE)
    schemes = {name: table[name] for name in ("cao_basis", "western_australia", "new_york", "ohio")}
    return {name: cited(_TABLE, row) for name, row in {"pure": table["pure"][0], **schemes}.items()}


def carbonate_basis(nv_as_oxide: float) -> float:
    """Return a neutralising value that counts as CaO [%], as the United Kingdom prints it, on that of CaCO3 [%].

    >>> round(carbonate_basis(56))
    100
    """
    return float(nv_as_oxide * shipped_table(_TABLE)["cao_basis"]["carbonate_per_oxide"])


def product_rate(pure: float, nv: float) -> float:
    """Return how much of a product does what so much pure calcium carbonate does, in the unit of `pure`.

    Args:
        pure: pure calcium carbonate, in any unit.
        nv: neutralising value of the product, pure calcium carbonate being 100 [%], above nought.

    >>> product_rate(1.0, 80)
    1.25
    """
    return pure * 100 / nv


def western_australia_value(fractions: Iterable[SizeFraction]) -> float | None:
    """Return the effective neutralising value of a lime in Western Australia [%]; None where a fraction straddles.

    The share of each size, times its neutralising value, times what so coarse a grain is worth, added up. A fraction
    that lies across a size where the worth changes cannot be split, and no value is given.

    Source: Western Australian department of agriculture, Comparing limes.

    Args:
        fractions: grain sizes with their mass and neutralising value [%].
    """
    rows = shipped_table(_TABLE)["western_australia"]["discounts"]
    total = 0.0
    for one in fractions:
        worth = {row["discount"] for row in rows if one.low_mm < (row["to"] or inf) and row["from"] < one.high_mm}
        if len(worth) != 1:
            return None
        total += one.mass_percent / 100 * one.neutralising_percent * worth.pop()
    return total


def new_york_value(through_20: float, through_60: float, through_100: float, equivalent: float) -> float:
    """Return the effective neutralising value of a lime in New York [%].

    Source: Cornell University, certified crop adviser study material, soil fertility.

    Args:
        through_20: mass that passes 20 meshes an inch [%].
        through_60: mass that passes 60 meshes an inch [%].
        through_100: mass that passes 100 meshes an inch [%].
        equivalent: calcium carbonate equivalent [%].

    >>> round(new_york_value(100, 60, 40, 90), 1)
    64.8
    """
    weight = shipped_table(_TABLE)["new_york"]
    fineness = (
        weight["between_20_and_60"] * (through_20 - through_60)
        + weight["between_60_and_100"] * (through_60 - through_100)
        + weight["through_100"] * through_100
    )
    return float(fineness * equivalent / 100)


def ohio_base() -> float:
    """Return the effective neutralising power that rates in Ohio count in [lb/short ton]."""
    return float(shipped_table(_TABLE)["ohio"]["base"])
