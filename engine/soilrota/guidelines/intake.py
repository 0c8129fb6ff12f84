"""What laboratory intake lets pass, and how long it waits, from the shipped table."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

import yaml

_FILE = Path(__file__).with_name("intake.yaml")


@dataclass(frozen=True, slots=True)
class IntakeFigures:
    """The figures of laboratory intake.

    Attributes:
        sampled_days_apart: most days between a file's day of sampling and the field note's [d].
        days_before_season: most days between filling a bag and the season it was given out for [d].
        depth_cm_apart: most between an edge of a layer in a file and in the book [cm].
        missing_after_days: greatest age of a field note whose bag is looked for [d].
        proposals_a_file: unknown bag ids of one file for which the nearest are looked up [-].
    """

    sampled_days_apart: int
    days_before_season: int
    depth_cm_apart: float
    missing_after_days: int
    proposals_a_file: int


@dataclass(frozen=True, slots=True)
class IntakeFigure:
    """One figure of the table with why it is so and where that comes from."""

    figure: float
    reason: str
    source: str


@cache
def intake_table() -> dict[str, IntakeFigure]:
    """Return the table by name."""
    content = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return {name: IntakeFigure(row["figure"], row["reason"], row["source"]) for name, row in content.items()}


@cache
def intake_figures() -> IntakeFigures:
    """Return the figures, each as the number that it is."""
    table = intake_table()
    return IntakeFigures(
        sampled_days_apart=int(table["sampled_days_apart"].figure),
        days_before_season=int(table["days_before_season"].figure),
        depth_cm_apart=float(table["depth_cm_apart"].figure),
        missing_after_days=int(table["missing_after_days"].figure),
        proposals_a_file=int(table["proposals_a_file"].figure),
    )
