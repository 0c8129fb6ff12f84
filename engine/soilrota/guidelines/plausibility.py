"""What is odd about laboratory results, and how much it matters, from the shipped table."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from math import hypot, log1p, sqrt
from pathlib import Path
from typing import Any

import yaml

from soilrota.model.result_findings import Grade, ResultRule

_FILE = Path(__file__).with_name("plausibility.yaml")


@dataclass(frozen=True, slots=True)
class Check:
    """One case of a rule about results.

    Attributes:
        rule: the rule.
        case: which of its cases; empty where it has one alone.
        grade: how much it matters.
        figures: what is asked by, with the units that the table states.
        reason: why it is odd.
        published: what the source says.
        source: where that comes from.
        is_unverified: whether the source was not read in print.
    """

    rule: ResultRule
    case: str
    grade: Grade
    figures: Mapping[str, float]
    reason: str
    published: str
    source: str
    is_unverified: bool


@dataclass(frozen=True, slots=True)
class UsualSpread:
    """How much values of one zone differ, where the zone itself does not tell yet.

    Attributes:
        is_log: whether values are compared as logarithms.
        sd: standard deviation of one value, from year to year and by the laboratory, on that scale.
        source: where it comes from.
        is_house_default: whether no publication gives it.
    """

    is_log: bool
    sd: float
    source: str
    is_house_default: bool


@dataclass(frozen=True, slots=True)
class HistoryFigures:
    """How a zone's history is summed up; the table explains each figure [-]."""

    least_for_own_spread: int
    mad_to_sd: float
    median_variance: float


@dataclass(frozen=True, slots=True)
class SwapFigures:
    """How swapped bags are looked for; the table explains each figure [-]."""

    share_of_bags: float
    degrees: float
    least_history: int
    least_bags: int
    least_analyses: int
    least_ratio_each: float
    evidence_share: float


@cache
def _content() -> dict[str, Any]:
    """Return the shipped file's content."""
    content: dict[str, Any] = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return content


@cache
def checks() -> dict[tuple[ResultRule, str], Check]:
    """Return every case by rule and case, in the order of the table."""
    made = (
        Check(
            rule=ResultRule(row["rule"]),
            case=row.get("case", ""),
            grade=Grade(row["grade"]),
            figures={name: float(figure) for name, figure in row.get("figures", {}).items()},
            reason=row["reason"],
            published=row["published"],
            source=row["source"],
            is_unverified=row.get("status") == "unverified",
        )
        for row in _content()["checks"]
    )
    return {(check.rule, check.case): check for check in made}


def check_of(rule: ResultRule, case: str = "") -> Check:
    """Return one case of a rule.

    Raises:
        KeyError: the table has no such case: a fault of the program.
    """
    return checks()[rule, case]


def chloride_conductivity(chloride: float) -> float:
    """Return the conductivity of a 1:5 extract [dS/m] that chloride [mg/kg] gives alone, as sodium chloride.

    >>> round(chloride_conductivity(600), 3)
    0.294
    """
    salt = _content()["chloride_salt"]
    return float(chloride * salt["nacl_over_cl"] * 1e-4 / salt["salts_percent_per_ds_m"])


@cache
def usual_spread(analyte: str) -> UsualSpread:
    """Return how much values of an analyte differ; the table's default where it has no own."""
    table = _content()["spread"]
    row = table["analytes"].get(analyte, table["default"])
    is_log = row.get("scale", "log") == "log"
    sd = hypot(*(_of_logarithms(row[part]) if is_log else row[part] for part in ("year", "laboratory")))
    return UsualSpread(is_log, sd, row["source"], bool(row.get("house", False)))


def _of_logarithms(cv: float) -> float:
    """Return the standard deviation of the logarithms of a log-normal with a coefficient of variation [-]."""
    return sqrt(log1p(cv * cv))


@cache
def history_figures() -> HistoryFigures:
    """Return how a zone's history is summed up."""
    return HistoryFigures(**_without_source(_content()["history"]))


@cache
def swap_figures() -> SwapFigures:
    """Return how swapped bags are looked for."""
    return SwapFigures(**_without_source(_content()["swaps"]))


def _without_source(table: Mapping[str, Any]) -> dict[str, Any]:
    """Return the figures of a table."""
    return {name: figure for name, figure in table.items() if name != "source"}
