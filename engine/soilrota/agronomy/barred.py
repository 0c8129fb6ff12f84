"""Samples whose results are barred from advice, by what was found on them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from soilrota.model.findings import SampleFinding, SampleKey, Weight
from soilrota.model.results import Result

#: The rules that bar a sample, by sample.
Barred = Mapping[SampleKey, tuple[str, ...]]


def barred_samples(findings: Iterable[SampleFinding]) -> Barred:
    """Return the samples that findings bar from advice, each with the rules, in order and once."""
    found: dict[SampleKey, tuple[str, ...]] = {}
    for finding in findings:
        if finding.weight is Weight.UNUSABLE:
            found[finding.sample] = tuple(dict.fromkeys((*found.get(finding.sample, ()), str(finding.rule))))
    return found


def rules_against(result: Result, barred: Barred) -> tuple[str, ...]:
    """Return the rules that bar a result's sample; empty where none does."""
    layer = (result.top_cm, result.bottom_cm)
    return barred.get(SampleKey(result.farm, result.zone, result.protocol, *layer, result.sampled), ())
