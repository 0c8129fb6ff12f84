"""Layers whose pH decides on lime: what was measured, how sure it is, where liming starts and what it lifts to.

The aim is the region's own by soil. A target of the client stands in its place where it asks for less, or where the
region's rule names none; it never asks for more. pH by another method is never converted.
"""

from __future__ import annotations

from dataclasses import dataclass

from soilrota.agronomy.advice.basis import Basis
from soilrota.agronomy.critical import is_under
from soilrota.agronomy.derived.intervals import WIDTH, Doubtful
from soilrota.agronomy.doubt import doubt_of, standard_error
from soilrota.agronomy.probability import probability_under
from soilrota.guidelines.advice_regions import Aim, LimeRegion
from soilrota.guidelines.cited import Cited
from soilrota.model.findings import Fact
from soilrota.model.judgement import Refused, WhyNot
from soilrota.model.results import Result

_PEAT = "peat"


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer and its aim.

    Attributes:
        result: its pH.
        ph: the same with its doubt [pH].
        below: probability that the zone's true mean lies under where liming starts [-].
        act_below: liming starts below this [pH].
        target: what it lifts to [pH].
        target_from: `guideline` or `client`.
        target_cited: where the region's aim comes from; None where the client's target alone decides.
        limed_cm: depth that is limed [cm]; None for the rule's own.
    """

    result: Result
    ph: Doubtful
    below: float
    act_below: float
    target: float
    target_from: str
    target_cited: Cited | None
    limed_cm: float | None

    @property
    def is_topsoil(self) -> bool:
        """Return whether it begins at the surface."""
        return self.result.top_cm == 0

    @property
    def is_met(self) -> bool:
        """Return whether nothing is to be limed here, as measured."""
        return not is_under(self.ph.value, self.act_below)

    @property
    def facts(self) -> dict[str, Fact]:
        """Return the figures of the layer."""
        facts: dict[str, Fact] = {
            "method": self.result.method,
            "ph": self.ph.value,
            "ph_low": self.ph.low,
            "ph_high": self.ph.high,
            "act_below": self.act_below,
            "target": self.target,
            "target_from": self.target_from,
            "top_cm": self.result.top_cm,
            "bottom_cm": self.result.bottom_cm,
        }
        if self.target_cited is not None:
            facts["target_source"] = self.target_cited.source.id
            facts["target_status"] = self.target_cited.status.value
        return facts


def layers_of(basis: Basis, region: LimeRegion, depth_cm: float | None = None) -> tuple[Layer, ...] | Refused:
    """Return the layers that decide, the topsoil first; why there are none.

    Args:
        basis: what the advice rests on.
        region: the region's rule.
        depth_cm: depth that the topsoil's lime is for [cm]; None for the rule's own, or the sampled layer's. A lower
            layer within that depth is not limed a second time.
    """
    results = basis.measured(f"ph.{region.method}")
    if not results:
        return _not_measured(basis, region)
    topsoil = next((one for one in results if one.top_cm == 0), None)
    if topsoil is None:
        return Refused(WhyNot.OTHER_LAYER, {"layers": ("0-",), "layer": _name(results[0])})
    censored = next((one for one in results if one.qualifier), None)
    if censored is not None:
        facts: dict[str, Fact] = {"qualifier": censored.qualifier, "value": censored.value}
        return Refused(WhyNot.CENSORED, facts | {"analysis": f"ph.{region.method}"})
    limed_cm = (depth_cm or topsoil.bottom_cm) if region.by_layer else depth_cm
    soil = "peaty" if basis.zone.texture == _PEAT else "mineral"
    first = _layer(basis, topsoil, region.aim(soil), limed_cm)
    if first is None:
        return Refused(WhyNot.RULE_VOID, {"reason": "no-target", "rule": region.rule})
    return (first, *_below(basis, region, results, max(topsoil.bottom_cm, depth_cm or 0.0)))


def _below(basis: Basis, region: LimeRegion, results: tuple[Result, ...], reached_cm: float) -> list[Layer]:
    """Return the layers below a depth [cm] that the region's rule speaks of, none of them twice."""
    if region.below is None:
        return []
    from_cm, to_cm, aim = region.below
    found = []
    for one in results:
        if one.top_cm >= max(reached_cm, from_cm) and one.bottom_cm <= to_cm:
            layer = _layer(basis, one, aim, one.bottom_cm - one.top_cm)
            found += [layer] if layer is not None else []
            reached_cm = one.bottom_cm
    return found


def _layer(basis: Basis, result: Result, aim: Aim | None, limed_cm: float | None) -> Layer | None:
    """Return a layer with its aim; None where neither region nor client names one."""
    asked = _asked_by_client(basis, result)
    aimed = [one for one in (aim.target if aim else None, asked) if one is not None]
    starts = [one for one in (aim.act_below if aim else None, asked) if one is not None]
    if not aimed:
        return None
    target, act_below = min(aimed), min(starts)
    is_asked = aim is None or aim.target != target or aim.act_below != act_below
    doubt = doubt_of(result, basis.evidence)
    reach = WIDTH * standard_error(result.value, doubt)
    return Layer(
        result=result,
        ph=Doubtful(result.value, result.value - reach, result.value + reach),
        below=probability_under(result.value, doubt, act_below),
        act_below=act_below,
        target=target,
        target_from="client" if is_asked else "guideline",
        target_cited=aim.cited if aim else None,
        limed_cm=limed_cm,
    )


def _asked_by_client(basis: Basis, result: Result) -> float | None:
    """Return the lower end of the client's target of a layer's pH; None where there is none."""
    zone = basis.zone
    for one in basis.targets:
        is_of = (one.analyte, one.method) == (result.analyte, result.method)
        is_here = zone.land_use in (one.land_uses or (zone.land_use,)) and (
            not one.zones or f"{zone.farm}/{zone.id}" in one.zones
        )
        if is_of and is_here and one.top_cm <= result.top_cm and result.bottom_cm <= one.bottom_cm:
            return one.low
    return None


def _not_measured(basis: Basis, region: LimeRegion) -> Refused:
    """Return why there is no pH by the rule's method."""
    others = tuple(dict.fromkeys(one.method for one in basis.results if one.analyte == "ph"))
    if others:
        return Refused(WhyNot.OTHER_METHOD, {"method": others[0], "methods": (region.method,)})
    return Refused(WhyNot.NOT_MEASURED, {"needs": (f"ph.{region.method}",)})


def _name(result: Result) -> str:
    """Return a layer as it is written."""
    return f"{result.top_cm:g}-{result.bottom_cm:g}"
