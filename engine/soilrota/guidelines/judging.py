"""By which figures results are judged, apart from the guideline sets, from the shipped table."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

import yaml

_FILE = Path(__file__).with_name("judging.yaml")


@dataclass(frozen=True, slots=True)
class JudgingFigures:
    """The figures; the table explains each.

    Attributes:
        near_low, near_high: probabilities between which a zone is near the line [-].
        interval_confidence: confidence of a published interval of a line [-].
        covariate_years: greatest distance in time of a covariate from the value that it serves [year].
        same_sampling_days: most days between layers of one sampling [d].
        change_confidence: confidence with which a change is told from chance [-].
        exact_up_to: most values for which Kendall's score is held against its exact distribution [-].
        least_for_slope: fewest exact values that give a slope [-].
    """

    near_low: float
    near_high: float
    interval_confidence: float
    covariate_years: float
    same_sampling_days: int
    change_confidence: float
    exact_up_to: int
    least_for_slope: int


@dataclass(frozen=True, slots=True)
class JudgingFigure:
    """One figure of the table with why it is so and where that comes from."""

    figure: float
    reason: str
    source: str


@cache
def judging_table() -> dict[str, JudgingFigure]:
    """Return the table by name."""
    content = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return {name: JudgingFigure(row["figure"], row["reason"], row["source"]) for name, row in content.items()}


@cache
def judging_figures() -> JudgingFigures:
    """Return the figures, each as the number that it is."""
    table = judging_table()
    return JudgingFigures(
        near_low=table["near_low"].figure,
        near_high=table["near_high"].figure,
        interval_confidence=table["interval_confidence"].figure,
        covariate_years=table["covariate_years"].figure,
        same_sampling_days=int(table["same_sampling_days"].figure),
        change_confidence=table["change_confidence"].figure,
        exact_up_to=int(table["exact_up_to"].figure),
        least_for_slope=int(table["least_for_slope"].figure),
    )
