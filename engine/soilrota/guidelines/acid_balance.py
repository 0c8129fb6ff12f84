"""Lime that acidification uses up, by produce taken away and by nitrogen fertiliser, from the shipped table."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from soilrota.guidelines.cited import Cited, cited, shipped_table
from soilrota.model.guideline import Status

_TABLE = "acid_balance"


@dataclass(frozen=True, slots=True)
class ProduceAcid:
    """Lime that makes good what one unit of produce takes away.

    Attributes:
        produce: its id, for instance `wheat`.
        per: `t` of produce, or `kL` of milk.
        low, high: published range [kg CaCO3 a unit]; the same where one figure is printed.
        cited: where it comes from.
    """

    produce: str
    per: str
    low: float
    high: float
    cited: Cited


@dataclass(frozen=True, slots=True)
class NitrogenAcid:
    """Lime that a nitrogen fertiliser uses up; below nought it acts as lime.

    Attributes:
        fertiliser: its id, for instance `urea`.
        words: what it is called.
        taken_up: where plants took all of its nitrogen up [kg CaCO3 a kg N].
        leached: where all of it was leached as nitrate [kg CaCO3 a kg N]; None where none is printed.
        leached_status: whether that was read; `cited` speaks of `taken_up`.
        cited: where it comes from.
    """

    fertiliser: str
    words: str
    taken_up: float
    leached: float | None
    leached_status: Status
    cited: Cited


@cache
def produce_acids() -> dict[str, ProduceAcid]:
    """Return the lime equivalent of produce by its id.

    >>> produce_acids()["wheat"].high
    9.0
    """
    return {
        row["id"]: ProduceAcid(
            row["id"], row.get("per", "t"), float(row["low"]), float(row["high"]), cited(_TABLE, row)
        )
        for row in shipped_table(_TABLE)["produce"]
    }


@cache
def nitrogen_acids() -> dict[str, NitrogenAcid]:
    """Return the lime equivalent of nitrogen fertilisers by their ids."""
    return {
        row["id"]: NitrogenAcid(
            fertiliser=row["id"],
            words=row["words"],
            taken_up=float(row["taken_up"]),
            leached=None if row["leached"] is None else float(row["leached"]),
            leached_status=Status(row.get("leached_status", row.get("status", Status.VERIFIED))),
            cited=cited(_TABLE, row),
        )
        for row in shipped_table(_TABLE)["nitrogen"]
    }
