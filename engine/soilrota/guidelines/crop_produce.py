"""Which product of a removal edition a crop's produce is, from the shipped table."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from soilrota.guidelines.cited import shipped_table
from soilrota.guidelines.removal import Per, Removal, removal

_TABLE = "crop_produce"
#: What leaves the field where nothing does.
NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class Produce:
    """What of a crop leaves the field.

    Attributes:
        crop: the crop, by the name that is offered.
        leaves: what leaves the field, as the table has it.
        removal: what one unit of it holds.
        bushel_lb: mass of a bushel where `removal` counts by it [lb]; None otherwise.
        is_legume: whether the crop binds nitrogen of its own.
    """

    crop: str
    leaves: str
    removal: Removal
    bushel_lb: float | None
    is_legume: bool


def plain(words: str) -> str:
    """Return words as they are compared: small letters, spaces for hyphens, one space between words.

    >>> plain("Winter-Wheat ")
    'winter wheat'
    """
    return " ".join(words.casefold().replace("-", " ").split())


def produce_of(editions: Iterable[str], crop: str, leaves: str) -> Produce | None:
    """Return what a crop's produce is in the first edition that knows it; None where none does.

    Args:
        editions: ids of editions, the one that goes first first.
        crop: the crop, as people write it.
        leaves: what leaves the field; empty for what is usual for the crop.

    >>> produce_of(["united-kingdom-2020"], "Winter wheat", "").removal.product
    'wheat-winter-grain'
    """
    for edition in editions:
        found = _of_edition(edition).get(plain(crop), {})
        if not leaves and found:
            return next(iter(found.values()))
        if plain(leaves) in found:
            return found[plain(leaves)]
    return None


def crop_names(editions: Iterable[str]) -> tuple[str, ...]:
    """Return every name of a crop that any of these editions knows, each once."""
    return tuple(dict.fromkeys(name for edition in editions for name in _of_edition(edition)))


def leaves_of(editions: Iterable[str], crop: str) -> tuple[str, ...]:
    """Return what may leave the field of a crop, by any of these editions, each once."""
    return tuple(dict.fromkeys(one for edition in editions for one in _of_edition(edition).get(plain(crop), {})))


@cache
def is_legume(crop: str) -> bool:
    """Return whether the table knows a crop, in any edition, as one that binds nitrogen of its own."""
    rows = (row for part in shipped_table(_TABLE)["lists"] for row in part["crops"])
    return any(row.get("legume", False) for row in rows if plain(crop) in map(plain, row["names"]))


@cache
def _of_edition(edition: str) -> Mapping[str, Mapping[str, Produce]]:
    """Return an edition's produce by crop, and by what leaves the field."""
    bushels = shipped_table(_TABLE)["bushels"]["products"]
    found: dict[str, dict[str, Produce]] = {}
    for part in shipped_table(_TABLE)["lists"]:
        for row in part["crops"] if edition in part["editions"] else ():
            taken = removal(edition, row["product"])
            assert taken is not None, f"{edition} has no {row['product']}"  # a fault of the table
            bushel = float(bushels[row["product"]]) if taken.per is Per.BUSHEL else None
            for name in row["names"]:
                by_leaves = found.setdefault(plain(name), {})
                for leaves in row["leaves"]:
                    by_leaves.setdefault(
                        plain(leaves), Produce(row["names"][0], leaves, taken, bushel, row.get("legume", False))
                    )
    return found
