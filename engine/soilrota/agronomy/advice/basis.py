"""What advice for a zone rests on: its judgement, the results behind it, and how sure they are."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from soilrota.agronomy.barred import barred_samples, rules_against
from soilrota.agronomy.derived.inputs import Bag, bag_of
from soilrota.agronomy.doubt import Evidence, evidence_of
from soilrota.agronomy.rating import last_sampling
from soilrota.model.client import Client, Zone
from soilrota.model.cropping import CropYear
from soilrota.model.findings import SampleFinding
from soilrota.model.judgement import Quantity, Rating, ZoneJudgement
from soilrota.model.results import Result, Target


@dataclass(frozen=True, slots=True)
class Basis:
    """What advice for one zone rests on.

    Attributes:
        zone: the zone, as the map has it.
        country: ISO 3166-1 code of the client.
        subdivision: ISO 3166-2 part without the country; may be empty.
        results: usable results of the last sampling.
        ratings, quantities: of the same sampling.
        evidence: what the client's records say of the doubt in its results.
        targets: targets of the client.
        plan: rows of the cropping plan for the zone, in their order.
    """

    zone: Zone
    country: str
    subdivision: str
    results: tuple[Result, ...]
    ratings: tuple[Rating, ...] = ()
    quantities: tuple[Quantity, ...] = ()
    evidence: Evidence = field(default_factory=Evidence)
    targets: tuple[Target, ...] = ()
    plan: tuple[CropYear, ...] = ()

    @property
    def ground(self) -> tuple[str, str]:
        """Return the ids of farm and zone."""
        return self.zone.farm, self.zone.id

    def measured(self, code: str) -> tuple[Result, ...]:
        """Return the results of an analysis (analyte.method), the uppermost layer first."""
        analyte, _, method = code.partition(".")
        found = (one for one in self.results if (one.analyte, one.method) == (analyte, method))
        return tuple(sorted(found, key=lambda one: (one.top_cm, one.bottom_cm)))

    def bag_with(self, result: Result) -> Bag:
        """Return what was measured of the layer of a result on its day; of replicates the last stands."""
        of = (result.top_cm, result.bottom_cm, result.sampled)
        return bag_of([one for one in self.results if (one.top_cm, one.bottom_cm, one.sampled) == of], self.zone)

    def quantity(self, code: str, top_cm: float, bottom_cm: float) -> Quantity | None:
        """Return a derived quantity of a layer [cm]; None where it could not be reckoned."""
        layer = (top_cm, bottom_cm)
        return next((one for one in self.quantities if (one.code, one.top_cm, one.bottom_cm) == (code, *layer)), None)


def basis_of(
    client: Client,
    zone: Zone,
    judgement: ZoneJudgement,
    *,
    findings: Iterable[SampleFinding] = (),
    plan: Sequence[CropYear] = (),
    evidence: Evidence | None = None,
) -> Basis:
    """Return what advice for a zone rests on; nothing of samples that are barred from it is there.

    Args:
        client: whose zone it is.
        zone: the zone.
        judgement: what was judged of it.
        findings: on samples of the client.
        plan: rows of the cropping plan, of any zone.
        evidence: of `evidence_of(client)`, where it is at hand already.
    """
    barred = barred_samples(findings)
    last = last_sampling(client, zone, judgement.protocol)
    return Basis(
        zone=zone,
        country=client.country,
        subdivision=client.subdivision,
        results=tuple(one for one in last if not rules_against(one, barred)),
        ratings=tuple(one for one in judgement.ratings if not rules_against(one.result, barred)),
        quantities=tuple(
            one for one in judgement.quantities if not any(rules_against(of, barred) for of in one.inputs)
        ),
        evidence=evidence or evidence_of(client),
        targets=client.targets,
        plan=tuple(row for row in plan if (row.farm, row.zone) == (zone.farm, zone.id)),
    )
