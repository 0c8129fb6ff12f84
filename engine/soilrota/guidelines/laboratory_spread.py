"""How much laboratory results differ, within one laboratory and between laboratories, from the shipped table."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from soilrota.guidelines.core_spread import cited_spread

_FILE = Path(__file__).with_name("laboratory_spread.yaml")


class Between(StrEnum):
    """What is compared: values of one laboratory, or what came out of different ones."""

    ONE_LABORATORY = "one-laboratory"
    LABORATORIES = "laboratories"


@dataclass(frozen=True, slots=True)
class LaboratorySpread:
    """The laboratory's part: coefficient of variation of one result [%], and where it comes from."""

    cv_percent: float
    source: str


@cache
def _content() -> dict[str, Any]:
    """Return the shipped file's content."""
    content: dict[str, Any] = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return content


def laboratory_spread(analyte: str, method: str, value: float, between: Between) -> LaboratorySpread:
    """Return the laboratory's part of a value's doubt.

    An analysis that the table does not have takes the one figure of the table of core spreads, for both uses.

    Args:
        analyte: id in the glossary.
        method: id of its method there.
        value: the value, which the figure may follow [unit of the glossary].
        between: what is compared.

    >>> round(laboratory_spread("phosphorus", "colwell", 30, Between.LABORATORIES).cv_percent, 1)
    15.2
    """
    row = _content()["analyses"].get(f"{analyte}.{method}")
    if row is None:
        cited = cited_spread(analyte)
        return LaboratorySpread(cited.laboratory_cv_percent, cited.source.partition("laboratory: ")[2])
    percent = max(row["within"]) / 2 if between is Between.ONE_LABORATORY else _between(row, value)
    return LaboratorySpread(float(percent), _source())


def _between(row: dict[str, Any], value: float) -> float:
    """Return the figure between laboratories [%]: by the curve where there is one, never above the largest printed."""
    curve = row.get("curve")
    if curve is None:
        return float(row["between"])
    most = float(_content()["most_percent"])
    return most if value <= 0 else min(float(curve["factor"] * value ** curve["exponent"]), most)


@cache
def _source() -> str:
    """Return the citation of the table in one line."""
    source = _content()["source"]
    return f"{source['author']} ({source['year']}), {source['title']}, {source['where']}"
