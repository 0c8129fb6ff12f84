"""Weights of findings: one for every rule, each with its reason and its source."""

from __future__ import annotations

import pytest

from soilrota.guidelines.sample_findings import few_cores_share, finding_weights, weight_of
from soilrota.model.findings import SampleRule, Weight


def test_every_rule_has_its_weight() -> None:
    """No finding can come up that the table does not weigh, and no row stands without reason and source."""
    table = finding_weights()
    assert {rule for rule, case in table if not case} == set(SampleRule)
    assert all(row.reason.endswith(".") and row.source for row in table.values())


def test_the_stated_house_defaults() -> None:
    """Another depth and fresh lime bar a value from advice; a closed day does not; wet soil leaves a doubt."""
    assert weight_of(SampleRule.OTHER_DEPTH) is Weight.UNUSABLE
    assert weight_of(SampleRule.INSIDE_GAP) is Weight.UNUSABLE
    assert weight_of(SampleRule.INSIDE_GAP, "undated") is Weight.DOUBT
    assert weight_of(SampleRule.CLOSED_DAY) is Weight.NOTE
    assert weight_of(SampleRule.OTHER_MOISTURE) is Weight.DOUBT
    assert few_cores_share() == 0.25


def test_a_case_that_is_not_there() -> None:
    """A misspelt case is a fault of the program, not a silent default."""
    with pytest.raises(KeyError):
        weight_of(SampleRule.INSIDE_GAP, "undatd")
