"""Samples that are barred from advice."""

from __future__ import annotations

from soilrota.agronomy.barred import barred_samples, rules_against
from soilrota.model.findings import SampleFinding, SampleKey, SampleRule, Weight
from tests.results.making import DAY, result

KEY = SampleKey("home", "river-flat", "topsoil", 0, 10, DAY)


def finding(rule: SampleRule, weight: Weight = Weight.UNUSABLE, key: SampleKey = KEY) -> SampleFinding:
    """Return a finding on the river flat's topsoil."""
    return SampleFinding(key, rule, weight)


def test_unusable_samples_alone() -> None:
    """Notes and doubts bar nothing; each rule is named once, in order; another layer is another sample."""
    found = barred_samples(
        (
            finding(SampleRule.OTHER_MOISTURE, Weight.DOUBT),
            finding(SampleRule.TOO_FEW_CORES),
            finding(SampleRule.OTHER_DEPTH),
            finding(SampleRule.TOO_FEW_CORES),
        )
    )
    topsoil = result("phosphorus.colwell", 30)
    assert rules_against(topsoil, found) == ("too-few-cores", "other-depth")
    assert rules_against(result("phosphorus.colwell", 30, top_cm=10, bottom_cm=20), found) == ()
    assert barred_samples([finding(SampleRule.OTHER_DEPTH, Weight.NOTE)]) == {}
