"""Holds the figures of shipped guideline sets against a table that a test writes out from a publication."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from soilrota.guidelines.sets import guideline_sets
from soilrota.model.guideline import GuidelineRow, Status


@dataclass(frozen=True)
class Printed:
    """What a publication prints, as far as a row holds it.

    Attributes:
        critical: the line [unit of the row]; None where none is printed.
        interval: its interval; empty where none is printed.
        edges: edges between classes, from low to high.
        target: what to aim at; None where none is printed.
        ranges: edges of the covariates that the row holds for, in their order.
    """

    critical: float | None = None
    interval: tuple[float, ...] = ()
    edges: tuple[float, ...] = ()
    target: float | None = None
    ranges: tuple[tuple[float | None, float | None], ...] = ()


def shipped(row: GuidelineRow) -> Printed:
    """Return the figures of a shipped row."""
    ends = (row.critical_low, row.critical_high)
    return Printed(
        critical=row.critical,
        interval=tuple(end for end in ends if end is not None),
        edges=tuple(one.low for one in row.classes if one.low is not None),
        target=row.target,
        ranges=tuple((one.low, one.high) for one in row.ranges),
    )


def row_of(guideline: str, row_id: str) -> GuidelineRow:
    """Return a row of a shipped set."""
    return next(row for row in guideline_sets()[guideline].rows if row.id == row_id)


def verified(sets: Iterable[str]) -> set[tuple[str, str]]:
    """Return set and id of every verified row of some shipped sets."""
    rows = ((name, row) for name in sets for row in guideline_sets()[name].rows)
    return {(name, row.id) for name, row in rows if row.status is Status.VERIFIED}


def named(tables: Iterable[Mapping[tuple[str, str], Printed]]) -> list[tuple[str, str]]:
    """Return set and id of every row that tables of figures name."""
    return [key for table in tables for key in table]
