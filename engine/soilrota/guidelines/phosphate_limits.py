"""Legal maxima of phosphate by land use and P Index, from the shipped table. The statute in force decides."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from soilrota.guidelines.cited import Cited, cited, shipped_table

_TABLE = "phosphate_limits"


@dataclass(frozen=True, slots=True)
class PhosphateLimit:
    """The most phosphate that the law lets anybody spread on one use of the land.

    Attributes:
        use: id of the use, for instance `first-cut-silage`.
        words: the use as it is printed.
        holding: for which holdings: `general`, `extensive`, or another condition that `words` spell out.
        most: the maximum by P Index, by the ids of classes in the guideline set [kg P2O5/ha].
        caution: what must be printed beside it.
        is_split_derived: whether the columns were split by hand from a copy that ran them together.
        cited: where it comes from.
    """

    use: str
    words: str
    holding: str
    most: Mapping[str, float]
    caution: str
    is_split_derived: bool
    cited: Cited


@cache
def phosphate_limits(country: str, subdivision: str) -> tuple[PhosphateLimit, ...]:
    """Return the limits of a country's part (ISO 3166-2 without the country); empty where the table has none.

    >>> [limit.most["index-0"] for limit in phosphate_limits("GB", "NIR") if limit.use == "first-cut-silage"]
    [70.0, 100.0]
    """
    return tuple(
        PhosphateLimit(
            use=row["id"],
            words=row["words"],
            holding=row["holding"],
            most={index: float(most) for index, most in zip(part["indices"], row["most"], strict=True)},
            caution=part["caution"],
            is_split_derived=part["split"] == "derived",
            cited=cited(_TABLE, row, part),
        )
        for part in shipped_table(_TABLE)["countries"]
        if (part["country"], part["subdivision"]) == (country, subdivision)
        for row in part["limits"]
    )


def most_phosphate(country: str, subdivision: str, use: str, holding: str, index: str) -> float | None:
    """Return the legal maximum [kg P2O5/ha]; None where the table says nothing, which never means that all is allowed.

    >>> most_phosphate("GB", "NIR", "grazed-grass", "extensive", "index-2-minus")
    20.0
    """
    for limit in phosphate_limits(country, subdivision):
        if (limit.use, limit.holding) == (use, holding):
            return limit.most.get(index)
    return None


def legal_use(land_use: str) -> str:
    """Return the use that a zone's land use counts as; empty where a land use cannot tell.

    >>> legal_use("pasture")
    'grazed-grass'
    """
    return str(shipped_table(_TABLE)["uses"].get(land_use, ""))


def is_extensive(country: str, subdivision: str, chemical_nitrogen: float, manure_nitrogen: float) -> bool | None:
    """Return whether the law counts a holding as extensive; None where the table does not say.

    Args:
        country: where it lies, ISO 3166-1.
        subdivision: part of that, ISO 3166-2 without the country.
        chemical_nitrogen: nitrogen of chemical fertiliser [kg N/ha/yr].
        manure_nitrogen: nitrogen of livestock manure [kg N/ha/yr].
    """
    for part in shipped_table(_TABLE)["countries"]:
        if (part["country"], part["subdivision"]) == (country, subdivision):
            below = part["extensive"]
            return bool(
                chemical_nitrogen < below["chemical_nitrogen_below"] or manure_nitrogen < below["manure_nitrogen_below"]
            )
    return None
