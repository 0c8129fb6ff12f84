"""How sure a zone's mean is, as one composite of so many cores, analysed once, tells it.

    variance = core variance / cores + laboratory variance

Concentrations: all three as coefficients of variation, and the doubt stands on the scale of natural logarithms,
`sd = sqrt(ln(1 + cv²))`. pH: as shares of the value, in pH units. The laboratory's part is that within one laboratory
where values of one laboratory are held against each other, and that between laboratories for everything else, also for
a published critical value, which came out of other laboratories.

Where the practice has replicate bags with enough degrees of freedom, they stand before the cited figures. They hold the
sampling and one laboratory's repeatability; what laboratories differ by they cannot tell, so for a comparison between
laboratories that part stays the cited one, put in the place of the part within.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from math import expm1, hypot, log1p, sqrt

from soilrota.agronomy.replicates import Replicates, is_on_log_scale, replicates_of
from soilrota.guidelines.cited_tables import citation
from soilrota.guidelines.core_spread import cited_spread, least_degrees
from soilrota.guidelines.laboratory_spread import laboratory_cv, laboratory_cv_source
from soilrota.guidelines.repeatability import repeatability_cv, repeatability_source
from soilrota.language import phrase
from soilrota.model.client import Client
from soilrota.model.judgement import Doubt
from soilrota.model.protocol import Protocol
from soilrota.model.results import Result
from soilrota.model.samples import FieldNote


class Between(StrEnum):
    """What is compared: values of one laboratory, or what came out of different ones."""

    ONE_LABORATORY = "one-laboratory"
    LABORATORIES = "laboratories"


@dataclass(frozen=True, slots=True)
class Evidence:
    """What the client's records say of the doubt in its results.

    Attributes:
        cores: cores of composites [-], by bag and layer, and by ground, layer and day.
        protocols: protocols by id, which say how many were wanted.
        replicates: what replicate bags say, by analysis code.
    """

    cores: Mapping[Hashable, int] = field(default_factory=dict)
    protocols: Mapping[str, Protocol] = field(default_factory=dict)
    replicates: Mapping[str, Replicates] = field(default_factory=dict)


def evidence_of(client: Client) -> Evidence:
    """Return what a client's records say of the doubt in its results."""
    return Evidence(noted_cores(client.field_notes), client.protocols, replicates_of(client.results))


def noted_cores(notes: Iterable[FieldNote]) -> Mapping[Hashable, int]:
    """Return the cores that field notes tell, by bag and layer, and by ground, layer and day; the first note stands."""
    found: dict[Hashable, int] = {}
    for note in notes:
        if note.cores:
            layer = (note.top_cm, note.bottom_cm)
            if note.bag:
                found.setdefault((note.bag.casefold(), *layer), note.cores)
            found.setdefault((note.farm, note.zone, note.protocol, note.day, *layer), note.cores)
    return found


def cores_of(result: Result, evidence: Evidence) -> int:
    """Return the cores of a result's composite: as noted, else as the protocol wants; one where neither says [-]."""
    layer = (result.top_cm, result.bottom_cm)
    by_bag = evidence.cores.get((result.bag.casefold(), *layer)) if result.bag else None
    by_day = evidence.cores.get((result.farm, result.zone, result.protocol, result.sampled, *layer))
    protocol = evidence.protocols.get(result.protocol)
    wanted = {(one.top_cm, one.bottom_cm): one.cores for one in protocol.layers} if protocol else {}
    return by_bag or by_day or wanted.get(layer) or 1


def doubt_of(result: Result, evidence: Evidence, between: Between = Between.LABORATORIES) -> Doubt:
    """Return how sure a zone's mean is by one result.

    Args:
        result: the result; of a censored one the limit is taken for the value.
        evidence: what the client's records say.
        between: what the value is compared with.
    """
    code = f"{result.analyte}.{result.method}"
    laboratory, laboratory_source = _laboratory(code, result.value, between)
    own = evidence.replicates.get(code)
    if own is not None and own.degrees >= least_degrees():
        return _own(result, own, between)
    cited, cores = cited_spread(result.analyte), cores_of(result, evidence)
    core_source = cited.source.partition("; laboratory: ")[0].removeprefix("cores: ")
    return doubt_from(
        result,
        sampling_cv=cited.core_cv_percent / 100 / sqrt(cores),
        laboratory_cv=laboratory,
        source=phrase(
            "{cores} cores: {core_source}; laboratory: {laboratory_source}",
            cores=cores,
            core_source=core_source,
            laboratory_source=laboratory_source,
        ),
    )


def _laboratory(code: str, value: float, between: Between) -> tuple[float, str]:
    """Return the laboratory's part [-], and where it comes from."""
    if between is Between.ONE_LABORATORY:
        return repeatability_cv(code), repeatability_source(code)
    return laboratory_cv(code, value), citation(laboratory_cv_source(code))


def _own(result: Result, own: Replicates, between: Between) -> Doubt:
    """Return the doubt that the practice's own replicates tell: the laboratory's repeatability out, its part in."""
    code = f"{result.analyte}.{result.method}"
    total = sqrt(expm1(own.sd**2)) if is_on_log_scale(result.unit) else own.sd / abs(result.value or 1)
    # Chance can make replicates differ by less than the laboratory's cited part: then it is all of it.
    within = min(repeatability_cv(code), total)
    laboratory, laboratory_source = _laboratory(code, result.value, between)
    return doubt_from(
        result,
        sampling_cv=sqrt(total**2 - within**2),
        laboratory_cv=within if between is Between.ONE_LABORATORY else laboratory,
        source=phrase(
            "own replicates of {samplings} samplings with {degrees} degrees of freedom; "
            "laboratory: {laboratory_source}",
            samplings=own.groups,
            degrees=own.degrees,
            laboratory_source=laboratory_source,
        ),
        own=True,
    )


def doubt_from(result: Result, sampling_cv: float, laboratory_cv: float, source: str, *, own: bool = False) -> Doubt:
    """Return the doubt of a value from coefficients of variation.

    Args:
        result: the value.
        sampling_cv: of the mean of the cores [-].
        laboratory_cv: of one laboratory result [-].
        source: where the figures come from.
        own: whether they are the practice's own.
    """
    parts = (hypot(sampling_cv, laboratory_cv), sampling_cv, laboratory_cv)
    is_log = is_on_log_scale(result.unit)
    if is_log:
        sd, sampling, laboratory = (sqrt(log1p(cv * cv)) for cv in parts)
    else:
        sd, sampling, laboratory = (cv * abs(result.value) for cv in parts)
    return Doubt(sd, is_log, sampling, laboratory, source, own)


def standard_error(value: float, doubt: Doubt) -> float:
    """Return the standard deviation of a zone's mean in the unit of the value.

    >>> from soilrota.model.judgement import Doubt
    >>> round(standard_error(30, Doubt(0.1, True, 0.1, 0.0, "an example")), 2)
    3.01
    """
    return abs(value) * sqrt(expm1(doubt.sd**2)) if doubt.on_log_scale else doubt.sd
