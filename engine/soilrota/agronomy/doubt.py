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

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import expm1, hypot, log1p, sqrt

from soilrota.agronomy.replicates import Replicates, is_on_log_scale, replicates_of
from soilrota.guidelines.core_spread import cited_spread, least_degrees
from soilrota.guidelines.laboratory_spread import Between, laboratory_spread
from soilrota.model.client import Client
from soilrota.model.judgement import Doubt
from soilrota.model.protocol import Protocol
from soilrota.model.results import Result
from soilrota.model.samples import FieldNote


@dataclass(frozen=True, slots=True)
class Evidence:
    """What the client's records say of the doubt in its results.

    Attributes:
        notes: field notes, which know the cores of a bag.
        protocols: protocols by id, which say how many were wanted.
        replicates: what replicate bags say, by analysis code.
    """

    notes: tuple[FieldNote, ...] = ()
    protocols: Mapping[str, Protocol] | None = None
    replicates: Mapping[str, Replicates] | None = None


def evidence_of(client: Client) -> Evidence:
    """Return what a client's records say of the doubt in its results."""
    return Evidence(client.field_notes, client.protocols, replicates_of(client.results))


def cores_of(result: Result, notes: Iterable[FieldNote], protocol: Protocol | None) -> int:
    """Return the cores of a result's composite: as noted, else as the protocol wants; one where neither says [-]."""
    for note in notes:
        if note.cores and _is_note_of(note, result):
            return note.cores
    for layer in protocol.layers if protocol else ():
        if (layer.top_cm, layer.bottom_cm) == (result.top_cm, result.bottom_cm):
            return layer.cores
    return 1


def _is_note_of(note: FieldNote, result: Result) -> bool:
    """Return whether a note is of a result's bag; without bags, of its ground and day."""
    layer = (note.top_cm, note.bottom_cm) == (result.top_cm, result.bottom_cm)
    if note.bag and result.bag:
        return layer and note.bag.casefold() == result.bag.casefold()
    named = (note.farm, note.zone, note.protocol, note.day)
    return layer and named == (result.farm, result.zone, result.protocol, result.sampled)


def doubt_of(result: Result, evidence: Evidence, between: Between = Between.LABORATORIES) -> Doubt:
    """Return how sure a zone's mean is by one result.

    Args:
        result: the result; of a censored one the limit is taken for the value.
        evidence: what the client's records say.
        between: what the value is compared with.
    """
    protocol = (evidence.protocols or {}).get(result.protocol)
    cores = cores_of(result, evidence.notes, protocol)
    own = (evidence.replicates or {}).get(f"{result.analyte}.{result.method}")
    if own is not None and own.degrees >= least_degrees():
        return _own(result, own, between)
    cited = cited_spread(result.analyte)
    laboratory = laboratory_spread(result.analyte, result.method, result.value, between)
    core_source = cited.source.partition("; laboratory: ")[0].removeprefix("cores: ")
    return doubt_from(
        result,
        sampling_cv=cited.core_cv_percent / 100 / sqrt(cores),
        laboratory_cv=laboratory.cv_percent / 100,
        source=f"{cores} cores: {core_source}; laboratory: {laboratory.source}",
    )


def _own(result: Result, own: Replicates, between: Between) -> Doubt:
    """Return the doubt that the practice's own replicates tell."""
    within = laboratory_spread(result.analyte, result.method, result.value, Between.ONE_LABORATORY)
    wanted = laboratory_spread(result.analyte, result.method, result.value, between)
    total_cv = sqrt(expm1(own.sd**2)) if is_on_log_scale(result.unit) else own.sd / abs(result.value or 1)
    # Never less than nought: chance can make replicates differ by less than the laboratory's cited part.
    within_cv = min(within.cv_percent / 100, total_cv)
    laboratory_cv = within_cv if between is Between.ONE_LABORATORY else wanted.cv_percent / 100
    return doubt_from(
        result,
        sampling_cv=sqrt(max(total_cv**2 - within_cv**2, 0.0)),
        laboratory_cv=laboratory_cv,
        source=f"own replicates of {own.groups} samplings with {own.degrees} degrees of freedom; "
        f"laboratory: {wanted.source}",
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
