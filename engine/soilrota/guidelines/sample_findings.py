"""How much a finding about a sample matters, from the shipped table."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from soilrota.model.findings import SampleRule, Weight

_FILE = Path(__file__).with_name("sample_findings.yaml")


@dataclass(frozen=True, slots=True)
class FindingWeight:
    """The weight of a rule's findings.

    Attributes:
        rule: the rule.
        case: which of its cases; empty for all others.
        weight: how much it matters.
        reason: why.
        source: where that comes from.
    """

    rule: SampleRule
    case: str
    weight: Weight
    reason: str
    source: str


@cache
def _content() -> dict[str, Any]:
    """Return the shipped file's content."""
    content: dict[str, Any] = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return content


@cache
def finding_weights() -> dict[tuple[SampleRule, str], FindingWeight]:
    """Return every weight by rule and case, in the order of the table."""
    rows = (
        FindingWeight(SampleRule(row["rule"]), row.get("case", ""), Weight(row["weight"]), row["reason"], row["source"])
        for row in _content()["findings"]
    )
    return {(row.rule, row.case): row for row in rows}


def weight_of(rule: SampleRule, case: str = "") -> Weight:
    """Return how much a finding matters.

    Args:
        rule: the rule.
        case: one of its cases in the table; empty for the ordinary one.

    Raises:
        KeyError: the table has no such case: a fault of the program.
    """
    return finding_weights()[rule, case].weight


def few_cores_share() -> float:
    """Return the share of the protocol's cores below which a composite stands for too little [-]."""
    return float(_content()["few_cores_share"])
