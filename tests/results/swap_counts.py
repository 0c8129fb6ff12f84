"""What the checks say of swaps on a simulated farm."""

from __future__ import annotations

from soilrota.model.result_findings import Grade, ResultRule
from soilrota.results import check_results
from tests.results.simulated import Farm


def swap_grades(farm: Farm) -> dict[str, Grade]:
    """Return the grade of each zone of the fresh report that looks swapped."""
    findings = check_results(farm.client, farm.fresh)
    return {finding.key.zone: finding.grade for finding in findings if finding.rule is ResultRule.SWAPPED}
