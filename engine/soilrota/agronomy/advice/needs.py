"""Every need of a zone: what its soil asks for of nutrients, lime and gypsum, or why nothing can be advised.

A zone that is sampled under several protocols has several judgements. Lime and gypsum are reckoned from the latest of
them that gives a need. Where it is asked for, lime makes good what the harvests acidify, too.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from soilrota.agronomy.advice.acid import acid_made_good
from soilrota.agronomy.advice.basis import Basis, basis_of
from soilrota.agronomy.advice.crop_plan import harvests_between
from soilrota.agronomy.advice.gypsum import GypsumAsked, gypsum_need
from soilrota.agronomy.advice.lime import LimeAsked, lime_need
from soilrota.agronomy.advice.nutrient_needs import Choices, applied_since, nutrient_needs
from soilrota.agronomy.advice.working import Part
from soilrota.agronomy.doubt import evidence_of
from soilrota.model.advice import Input, Need, NoNeed
from soilrota.model.client import Client, Zone
from soilrota.model.judgement import ZoneJudgement

#: Reckons the need of a soil from what it rests on, less what was spread.
Reckoner = Callable[[Basis, tuple[Part, ...]], Need | NoNeed]
_ORDER = {one: number for number, one in enumerate(Input)}


def _gypsum(basis: Basis, spread: tuple[Part, ...]) -> Need | NoNeed:
    """Return the need of gypsum."""
    return gypsum_need(basis, GypsumAsked(others=spread))


def _lime(basis: Basis, spread: tuple[Part, ...]) -> Need | NoNeed:
    """Return the need of lime; what was spread, and acid that is made good, are parts of it."""
    return lime_need(basis, LimeAsked(others=spread))


_OF_THE_SOIL: dict[Input, Reckoner] = {Input.LIME: _lime, Input.GYPSUM: _gypsum}


def needs_of(client: Client, zone: Zone, judgements: Sequence[ZoneJudgement], by: Choices) -> tuple[Need | NoNeed, ...]:
    """Return every need of a zone, one an input in the order of `Input`, or why there is none.

    Args:
        client: whose zone it is; its cropping plan and its applications are asked.
        zone: the zone.
        judgements: of the zone, one a protocol; none gives no advice at all.
        by: what needs are reckoned by.
    """
    if not judgements:
        return ()
    of_soil = (_soil_need(client, zone, judgements, input_, by) for input_ in _OF_THE_SOIL)
    return tuple(sorted((*nutrient_needs(client, zone, judgements, by), *of_soil), key=lambda one: _ORDER[one.input]))


def _soil_need(
    client: Client, zone: Zone, judgements: Sequence[ZoneJudgement], input_: Input, by: Choices
) -> Need | NoNeed:
    """Return the need of lime or gypsum by the latest judgement that gives one; else why the latest gives none."""
    evidence, found = evidence_of(client), []
    for judgement in sorted(judgements, key=lambda one: one.sampled, reverse=True):
        basis = basis_of(client, zone, judgement, findings=by.findings, plan=client.cropping, evidence=evidence)
        spread = applied_since(client, zone, input_, judgement.sampled, by)
        acid = _acid(client, basis, judgement, by) if input_ is Input.LIME and by.makes_acid_good else ()
        need = _OF_THE_SOIL[input_](basis, (*acid, *spread.parts))
        if isinstance(need, Need):
            return replace(need, cautions=tuple(dict.fromkeys((*need.cautions, *spread.cautions))))
        found.append(need)
    return found[0]


def _acid(client: Client, basis: Basis, judgement: ZoneJudgement, by: Choices) -> tuple[Part, ...]:
    """Return the lime that makes good what harvests since the sampling acidify, to the one that is asked for."""
    harvests = harvests_between(basis.plan, judgement.sampled, by.on, client.hemisphere)
    return acid_made_good([row for harvest in harvests for row in harvest.rows])
