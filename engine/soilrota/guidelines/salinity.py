"""Salinity: from a 1:5 extract to the saturation extract, and what crops lose, from the shipped table."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from statistics import median
from typing import Any

from soilrota.guidelines.cited_tables import Figure, cited_table, status_of
from soilrota.guidelines.texture_clay import clay_of_texture
from soilrota.model.guideline import Source, Status

_TABLE = "salinity"
_SANDIEST = "sand"


@dataclass(frozen=True, slots=True)
class SaltTolerance:
    """How a crop's yield falls with salinity.

    Attributes:
        id: its id.
        threshold: ECe up to which nothing is lost [dS/m].
        slope: yield lost beyond it [% a dS/m].
        source: where both come from.
        threshold_source: where the threshold comes from.
        status: whether they were read there.
    """

    id: str
    threshold: float
    slope: float
    source: Source
    threshold_source: Source
    status: Status

    def relative_yield(self, ece: float) -> float:
        """Return the yield at an ECe [dS/m], of that without salt [%]."""
        return min(100.0, max(0.0, 100 - self.slope * (ece - self.threshold)))


def salinity_formula(quantity: str) -> tuple[Source, Status]:
    """Return where the formula of a quantity comes from, and whether it was read there."""
    return cited_table(_TABLE).formula(quantity)


def factor_by_clay(clay_percent: float) -> Figure | None:
    """Return ECe over EC 1:5 [-] by clay [%]; None beyond the table. Below its 10 % it is that of sand.

    >>> found = factor_by_clay(30)
    >>> found and round(found.value, 1)
    10.1
    """
    rows = _by_clay()["classes"]
    if clay_percent < rows[0]["low"]:
        return factor_by_texture(_SANDIEST)
    found = _printed_range(clay_percent)
    return None if found is None else _not_too_sure(found)


def factor_by_texture(texture: str) -> Figure | None:
    """Return ECe over EC 1:5 [-] by field texture; None where no set has the texture.

    Its range is that of the sets, and of the table by clay at the clay of the grade.
    """
    table = cited_table(_TABLE)
    content = table.content["by_texture"]
    sets = [row for row in content["sets"] if texture in row["factors"]]
    if not sets:
        return None
    factors = [float(row["factors"][texture]) for row in sets]
    clay = clay_of_texture(texture)
    ends = [] if clay is None else [end for end in (clay.low, clay.high) if end is not None]
    printed = [found for end in ends if (found := _printed_range(end)) is not None]
    return _not_too_sure(
        Figure(
            value=median(factors),
            low=min([*factors, *(found.low for found in printed)]),
            high=max([*factors, *(found.high for found in printed)]),
            source=table.source(sets[0]),
            status=status_of(content),
        )
    )


def regressions(conductivity: float) -> dict[str, float]:
    """Return ECe [dS/m] by each regression that is blind to texture; none in fresh soil, where they do not hold."""
    content = cited_table(_TABLE).content["regressions"]
    if conductivity < content["least_conductivity"]["value"]:
        return {}
    return {row["source"]: row["slope"] * conductivity + row["constant"] for row in content["lines"]}


def gypsum_extract() -> Figure:
    """Return the conductivity at which gypsum holds a 1:5 extract [dS/m]."""
    return _figure("gypsum_extract")


def gypsum_possible_from() -> Figure:
    """Return the conductivity 1:5 from which gypsum is thought of [dS/m]."""
    return _figure("gypsum_possible_from")


def salt_tolerance(crop: str) -> SaltTolerance | None:
    """Return the tolerance of a crop by its id, or as people write it; None where the table does not know it.

    >>> found = salt_tolerance("Winter wheat")
    >>> found and found.id
    'wheat-grain'
    """
    return _names().get(_plain(crop))


@cache
def salt_tolerances() -> tuple[SaltTolerance, ...]:
    """Return the tolerances of all crops of the table."""
    table = cited_table(_TABLE)
    return tuple(
        SaltTolerance(
            id=row["id"],
            threshold=float(row["threshold"]),
            slope=float(row["slope"]),
            source=table.source(row),
            threshold_source=table.sources[row.get("threshold_source", row["source"])],
            status=status_of(row),
        )
        for row in table.content["crops"]
    )


@cache
def _names() -> dict[str, SaltTolerance]:
    """Return the tolerances by every name that the table has for them."""
    rows = zip(cited_table(_TABLE).content["crops"], salt_tolerances(), strict=True)
    return {_plain(name): crop for row, crop in rows for name in (row["id"], *row["names"])}


def _plain(name: str) -> str:
    """Return a name without case, and with one space for every gap."""
    return " ".join(name.casefold().replace("-", " ").split())


def _by_clay() -> Any:
    """Return the table by clay."""
    return cited_table(_TABLE).content["by_clay"]


def _printed_range(clay_percent: float) -> Figure | None:
    """Return the factor that the table by clay implies, with the range of its ratios; None beyond the table."""
    content = _by_clay()
    row = next((row for row in content["classes"] if row["low"] <= clay_percent < row["high"]), None)
    if row is None:
        return None
    above, below = content["saturation_extract"], row["extract_1_5"]
    ratios = [paste / extract for paste, extract in zip(above, below, strict=True)]
    return Figure(sum(above) / sum(below), min(ratios), max(ratios), cited_table(_TABLE).source(content))


def _not_too_sure(figure: Figure) -> Figure:
    """Return a factor whose range is not narrower than the table lets it be."""
    share = _figure("least_range_percent").value / 100
    low, high = min(figure.low, figure.value * (1 - share)), max(figure.high, figure.value * (1 + share))
    return Figure(figure.value, low, high, figure.source, figure.status)


def _figure(name: str) -> Figure:
    """Return a figure of the table."""
    table = cited_table(_TABLE)
    return table.figure(table.content[name])
