"""Everything that is judged of one zone under one protocol on the day of its last results."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass

from soilrota.agronomy.barred import barred_samples, rules_against
from soilrota.agronomy.comparable import Key
from soilrota.agronomy.covariates import codes_of, covariates_for
from soilrota.agronomy.derived import derived_quantities, profile_nitrogen
from soilrota.agronomy.doubt import Evidence, evidence_of
from soilrota.agronomy.rating import last_sampling, rate_quantity, rate_zone
from soilrota.agronomy.row_choice import ground_of
from soilrota.agronomy.trend import trends_of
from soilrota.model.client import Client, Zone
from soilrota.model.findings import SampleFinding
from soilrota.model.guideline import GuidelineSet
from soilrota.model.judgement import NoQuantity, Quantity, Rating, Unrated, ZoneJudgement
from soilrota.model.results import Result

#: Reckons quantities of results of one sampling: those that there are, and those that could not be reckoned.
Reckoning = Callable[[Sequence[Result]], tuple[Sequence[Quantity], Sequence[NoQuantity]]]


@dataclass(frozen=True, slots=True)
class Judging:
    """What a zone is judged by.

    Attributes:
        sets: guideline sets of the zone, the one that goes first first.
        key: what values must have in common to be compared.
        reckon: reckons derived quantities of the last sampling's usable results, for instance `reckoning_for(zone)`;
            None for none.
        findings: on samples of the client.
        crops: crops of the zone's plan.
        goal: the yield goal that was chosen; empty for each set's own.
        evidence: of `evidence_of(client)`, where it is at hand already.
    """

    sets: tuple[GuidelineSet, ...]
    key: Key
    reckon: Reckoning | None = None
    findings: tuple[SampleFinding, ...] = ()
    crops: tuple[str, ...] = ()
    goal: str = ""
    evidence: Evidence | None = None


def judge_zone(client: Client, zone: Zone, protocol: str, by: Judging) -> ZoneJudgement | None:
    """Return everything that is judged of a zone under a protocol; None where it has no results.

    Args:
        client: whose records are asked.
        zone: the zone.
        protocol: id of the protocol.
        by: what it is judged by.
    """
    last = last_sampling(client, zone, protocol)
    if not last:
        return None
    evidence = by.evidence or evidence_of(client)
    barred = barred_samples(by.findings)
    usable = [one for one in last if not rules_against(one, barred)]
    reckoned = by.reckon(usable) if by.reckon else ((), ())
    quantities, missing = tuple(reckoned[0]), tuple(reckoned[1])
    ratings, unrated = rate_zone(
        client, zone, protocol, by.sets, barred=barred, crops=by.crops, goal=by.goal,
        quantities=quantities, evidence=evidence,
    )  # fmt: skip
    of_zone = [one for one in client.results if (one.farm, one.zone) == (zone.farm, zone.id)]
    known = [one for one in of_zone if not rules_against(one, barred)]
    derived = _derived(zone, quantities, known, by)
    return ZoneJudgement(
        farm=zone.farm,
        zone=zone.id,
        protocol=protocol,
        sampled=max(one.sampled for one in last),
        set=by.sets[0].id if by.sets else "",
        ratings=(*ratings, *(one for one in derived if isinstance(one, Rating))),
        unrated=(*unrated, *(one for one in derived if isinstance(one, Unrated))),
        quantities=quantities,
        missing=missing,
        trends=trends_of(client, zone, protocol, by.key, barred=barred, evidence=evidence),
    )


def reckoning_for(zone: Zone, crops: Sequence[str] = ()) -> Reckoning:
    """Return what reckons every derived quantity of a zone's sampling, bag by bag, and the profile's nitrogen.

    Args:
        zone: the zone.
        crops: crops of its plan, whose yield under salinity is reckoned.
    """

    def reckon(results: Sequence[Result]) -> tuple[Sequence[Quantity], Sequence[NoQuantity]]:
        bags: defaultdict[Hashable, list[Result]] = defaultdict(list)
        for one in results:
            bags[one.sampled, one.top_cm, one.bottom_cm, one.bag.casefold()].append(one)
        quantities: list[Quantity] = []
        missing: list[NoQuantity] = []
        for bag in bags.values():
            found, without = derived_quantities(bag, zone, crops=crops)
            quantities += found
            missing += without
        profile = profile_nitrogen(_profile(list(bags.values())), zone) if bags else None
        quantities += [profile] if isinstance(profile, Quantity) else []
        missing += [profile] if isinstance(profile, NoQuantity) else []
        return quantities, missing

    return reckon


def _profile(bags: Sequence[Sequence[Result]]) -> list[Sequence[Result]]:
    """Return the bags of the last day, one a layer: of replicates the first."""
    last = max(bag[0].sampled for bag in bags)
    layers: dict[tuple[float, float], Sequence[Result]] = {}
    for bag in bags:
        if bag[0].sampled == last:
            layers.setdefault((bag[0].top_cm, bag[0].bottom_cm), bag)
    return list(layers.values())


def _derived(
    zone: Zone, quantities: Sequence[Quantity], known: Sequence[Result], by: Judging
) -> list[Rating | Unrated]:
    """Return what derived quantities mean, those that a set speaks of."""
    codes = codes_of(by.sets)
    judged = []
    for quantity in quantities:
        if quantity.inputs:
            covariates = covariates_for(quantity.inputs[0], codes, zone, known, quantities)
            found = rate_quantity(quantity, by.sets, ground_of(zone, covariates, by.crops, by.goal))
            judged += [found] if found is not None else []
    return judged
