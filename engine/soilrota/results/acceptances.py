"""What people said about findings, put to the findings that it fits."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from soilrota.bag_ids import normalised
from soilrota.model.result_findings import Acceptance, ResultFinding, ResultRule


def with_acceptances(findings: Iterable[ResultFinding], acceptances: Sequence[Acceptance]) -> tuple[ResultFinding, ...]:
    """Return the findings, each with the first acceptance that fits it."""
    return tuple(
        replace(finding, accepted=next((one for one in acceptances if fits(one, finding)), None))
        for finding in findings
    )


def fits(acceptance: Acceptance, finding: ResultFinding) -> bool:
    """Return whether an acceptance speaks of a finding.

    Every name that it gives must be the finding's; of its analyses one is enough, because a finding about several is
    accepted as a whole. A value that no soil has is never accepted.
    """
    key = finding.key
    if acceptance.rule is not finding.rule or finding.rule is ResultRule.HARD_LIMIT:
        return False
    if acceptance.report and acceptance.report != key.report:
        return False
    if acceptance.analyses and not set(acceptance.analyses) & set(finding.analyses):
        return False
    if acceptance.bag and normalised(acceptance.bag) != normalised(key.bag):
        return False
    if acceptance.zone and acceptance.zone != f"{key.farm}/{key.zone}":
        return False
    return acceptance.sampled is None or acceptance.sampled == key.sampled


def idle_acceptances(findings: Iterable[ResultFinding], acceptances: Iterable[Acceptance]) -> tuple[Acceptance, ...]:
    """Return the acceptances that stand at no finding, for instance because the bag id has a slip.

    Args:
        findings: every finding about the standing results of the client.
        acceptances: those of the client's file.
    """
    used = [finding.accepted for finding in findings if finding.accepted is not None]
    return tuple(one for one in acceptances if one not in used)
