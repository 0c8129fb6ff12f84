"""How much pure lime lifts a topsoil, by rules of the United States: pH of a buffer, or the acidity that it finds.

Rates are published an acre and for a depth in inches; they come out by the hectare and for the depth that is limed.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from soilrota.agronomy.advice.basis import Basis
from soilrota.agronomy.advice.cautions import Caution
from soilrota.agronomy.advice.lime_layers import Layer
from soilrota.agronomy.advice.lime_rates import Rate
from soilrota.agronomy.derived.intervals import WIDTH, Doubtful
from soilrota.agronomy.doubt import doubt_of, standard_error
from soilrota.guidelines.advice_regions import LimeRegion
from soilrota.guidelines.lime_buffers import (
    iowa_lime,
    north_carolina_acidity,
    north_carolina_lime,
    oregon_lime,
    penn_state_lime,
)
from soilrota.guidelines.lime_rules import lime_rules, rule_row
from soilrota.model.findings import Fact
from soilrota.model.judgement import Refused, WhyNot
from soilrota.model.results import Result
from soilrota.quantities import Refusal, factor

_CM_AN_INCH = 2.54
_SIKORA, _MEHLICH, _ACIDITY = "buffer-ph.sikora", "buffer-ph.mehlich", "exchange-acidity.mehlich-buffer"
_POUNDS = {"lb/ac": 1.0, "short ton/ac": 2000.0}


def by_oregon(basis: Basis, region: LimeRegion, layer: Layer) -> Rate | Refused:
    """Return the rate of Oregon; refused within the step of its table, above it, and between printed targets.

    Source: Oregon State University Extension 2025, EM 9585, Sikora buffer.
    """
    row = rule_row(region.rule)
    buffers = [float(line["buffer"]) for branch in row["branches"] for line in branch]
    least, most = min(buffers), max(buffers)

    def lime(_: float, buffer: float) -> float:
        at = min(max(buffer, least), most)
        # An end of the interval may lie within the step, where nothing is printed: the nearest printed line is taken.
        found = oregon_lime(at, layer.target)
        return found if found is not None else oregon_lime(round(at, 1), layer.target) or 0.0

    found = _buffer(basis, layer, _SIKORA)
    if isinstance(found, Refused):
        return found
    result, buffer = found
    if layer.target not in row["targets"]:
        return _other_target(layer, row["targets"])
    if result.value > most or (result.value >= least and oregon_lime(result.value, layer.target) is None):
        return Refused(WhyNot.OUTSIDE_CALIBRATION, {"covariate": _SIKORA, "value": result.value})
    beyond = (Caution.BEYOND_TABLE,) if result.value < least else ()
    return _rate(region, layer, lime, buffer, {"buffer_ph": result.value}, cautions=beyond)


def by_penn_state(basis: Basis, region: LimeRegion, layer: Layer) -> Rate | Refused:
    """Return the rate of Pennsylvania, by the acidity that the Mehlich buffer finds.

    Source: Penn State Agronomy Guide, section 2.
    """
    targets = [float(line["target"]) for line in rule_row(region.rule)["targets"]]
    if layer.target not in targets:
        return _other_target(layer, targets)
    readings = basis.bag_with(layer.result).read(_ACIDITY)
    if isinstance(readings, Refused):
        return readings
    acidity = readings[0].amount
    return _rate(
        region,
        layer,
        lambda ph, by: penn_state_lime(by, layer.target, ph) or 0.0,
        acidity,
        {"acidity": acidity.value},
    )


def by_north_carolina(basis: Basis, region: LimeRegion, layer: Layer) -> Rate | Refused:
    """Return the rate of North Carolina; it prints no depth, so none is scaled by.

    Source: North Carolina Department of Agriculture and Consumer Services, Lime from buffer pH.
    """
    neutral = float(rule_row(region.rule)["neutral"])
    if layer.target > neutral:
        return _other_target(layer, [neutral])
    found = _buffer(basis, layer, _MEHLICH)
    if isinstance(found, Refused):
        return found
    result, buffer = found
    return _rate(
        region,
        layer,
        lambda ph, by: north_carolina_lime(ph, layer.target, north_carolina_acidity(by)),
        buffer,
        {"buffer_ph": result.value, "acidity": north_carolina_acidity(result.value)},
    )


def by_iowa(basis: Basis, region: LimeRegion, layer: Layer) -> Rate | Refused:
    """Return the rate of Iowa, by the Sikora buffer.

    Source: Iowa State University Extension 2013, PM 1688 (unverified).
    """
    row = rule_row(region.rule)
    targets = [float(line["target"]) for line in row["lines"]]
    if layer.target not in targets:
        return _other_target(layer, targets)
    found = _buffer(basis, layer, _SIKORA)
    if isinstance(found, Refused):
        return found
    result, buffer = found
    return _rate(
        region,
        layer,
        lambda _, by: iowa_lime(by, layer.target, row["depth_in"]) or 0.0,
        buffer,
        {"buffer_ph": result.value},
    )


def _rate(
    region: LimeRegion,
    layer: Layer,
    lime: Callable[[float, float], float],
    other: Doubtful,
    facts: Mapping[str, Fact],
    *,
    cautions: Sequence[str] = (),
) -> Rate:
    """Return a rate by the hectare [t/ha] of one that is published an acre, for the depth that is limed."""
    rule, row = lime_rules()[region.rule], rule_row(region.rule)
    own_cm = row["depth_in"] * _CM_AN_INCH if "depth_in" in row else None
    depth = layer.limed_cm / own_cm if layer.limed_cm and own_cm else 1.0
    by_hectare = _tonnes(rule.unit) * depth * region.pure_share
    known: dict[str, Fact] = {"rule": region.rule, "rule_unit": rule.unit, "pure_share": region.pure_share, **facts}
    if own_cm is not None:
        known |= {"rule_cm": own_cm, "limed_cm": layer.limed_cm or own_cm}
    return Rate(
        formula=lambda ph, by: lime(ph, by) * by_hectare,
        other=other,
        cited=rule.cited,
        facts=known,
        cautions=tuple(cautions),
    )


def _buffer(basis: Basis, layer: Layer, code: str) -> tuple[Result, Doubtful] | Refused:
    """Return the pH of a buffer with its doubt, as it is of the layer; why it is not there, or of no use."""
    result = basis.bag_with(layer.result).results.get(code)
    if result is None:
        return Refused(WhyNot.NOT_MEASURED, {"needs": (code,)})
    if result.qualifier:
        return Refused(WhyNot.CENSORED, {"analysis": code, "qualifier": result.qualifier, "value": result.value})
    reach = WIDTH * standard_error(result.value, doubt_of(result, basis.evidence))
    return result, Doubtful(result.value, result.value - reach, result.value + reach)


def _other_target(layer: Layer, targets: Sequence[float]) -> Refused:
    """Return the refusal of a target that a rule has no rate for."""
    facts: dict[str, Fact] = {"reason": "target-not-in-rule", "target": layer.target}
    return Refused(WhyNot.RULE_VOID, facts | {"targets": tuple(f"{one:g}" for one in targets)})


def _tonnes(unit: str) -> float:
    """Return one of a unit an acre as so much a hectare [t/ha]."""
    by = factor("lb/ac", "kg/ha", "calcium")
    assert not isinstance(by, Refusal)
    return _POUNDS[unit] * by / 1000
