"""What the results of a client mean: guideline sets, findings, history and cropping brought together, zone by zone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from soilrota.agronomy.doubt import evidence_of
from soilrota.agronomy.farm_spread import farm_spreads
from soilrota.agronomy.judging import Judging, judge_zone, reckoning_for
from soilrota.batch.issued import read_issued
from soilrota.guidelines.choosing import chosen_set, goal_of, sets_for
from soilrota.model.client import Client, Zone
from soilrota.model.findings import SampleFinding
from soilrota.model.guideline import GuidelineSet
from soilrota.model.judgement import FarmSpread, ZoneJudgement
from soilrota.results import check_notes
from soilrota.results.history import comparability_key
from soilrota.timing import check_days


@dataclass(frozen=True, slots=True)
class ClientJudgement:
    """What is judged of a client: every zone under every protocol that has results, and what farm means would hide."""

    zones: tuple[ZoneJudgement, ...]
    spreads: tuple[FarmSpread, ...]

    def of(self, farm: str, zone: str) -> tuple[ZoneJudgement, ...]:
        """Return what is judged of one zone, a protocol each."""
        return tuple(one for one in self.zones if (one.farm, one.zone) == (farm, zone))


def judge_client(
    client: Client, findings: Sequence[SampleFinding], crops: dict[tuple[str, str], tuple[str, ...]] | None = None
) -> ClientJudgement:
    """Return what is judged of a client.

    Args:
        client: the client.
        findings: on its samples; results of unusable samples are not judged.
        crops: crops of each zone, by farm and zone; None for those of its plan from the year of its last sampling on.
    """
    grown_on = _crops_of(client) if crops is None else crops
    evidence = evidence_of(client)
    judged: list[ZoneJudgement] = []
    spreads: list[FarmSpread] = []
    for farm in client.farms:
        of_farm: list[ZoneJudgement] = []
        for zone in farm.zones:
            grown = grown_on.get((farm.id, zone.id), ())
            by = Judging(
                sets=sets_for(client, zone),
                key=comparability_key,
                reckon=reckoning_for(zone, grown),
                findings=tuple(findings),
                crops=grown,
                goal=_goal(client, zone),
                evidence=evidence,
            )
            found = (judge_zone(client, zone, protocol, by) for protocol in zone.protocols)
            of_farm += [one for one in found if one is not None]
        judged += of_farm
        spreads += farm_spreads(farm, of_farm)
    return ClientJudgement(tuple(judged), tuple(spreads))


def _crops_of(client: Client) -> dict[tuple[str, str], tuple[str, ...]]:
    """Return the crops of each zone's plan from the year of its last sampling on, the next harvest first."""
    sampled: dict[tuple[str, str], int] = {}
    for result in client.results:
        key = (result.farm, result.zone)
        sampled[key] = max(result.sampled.year, sampled.get(key, 0))
    found: dict[tuple[str, str], tuple[str, ...]] = {}
    for row in sorted(client.cropping, key=lambda row: row.year):
        key = (row.farm, row.zone)
        if row.year >= sampled.get(key, 0):
            found[key] = tuple(dict.fromkeys((*found.get(key, ()), row.crop)))
    return found


def sample_findings(root: Path, client: Client) -> tuple[SampleFinding, ...]:
    """Return what is odd about the samples of a client; of bags nothing where what was given out cannot be read."""
    issued, _ = read_issued(root, client.id)
    notes = check_notes(client, [one.bag for one in issued.bags]) if issued else ()
    return (*check_days(client), *notes)


def sets_of(client: Client, zone: Zone) -> dict[str, GuidelineSet]:
    """Return the guideline sets of a zone by id, the one that goes first first."""
    return {one.id: one for one in sets_for(client, zone)}


def _goal(client: Client, zone: Zone) -> str:
    """Return the yield goal of a zone; empty where no set was chosen for it."""
    chosen = chosen_set(client, zone)
    return goal_of(client, zone, chosen) if chosen else ""
