"""How much pure lime a zone needs: by the rule of its region, layer by layer, with its working.

    lime = sum over layers of what lifts each from its pH to its target, where its pH lies under where liming starts

Its range follows from the doubt of each pH, of what the rule hangs on besides, and of a factor by texture, which all
layers of a zone share. Where less than is worth spreading comes out, nothing is spread; more than one dressing holds is
split, or worked in; more than all dressings hold waits for the next sampling.

Steps: `lift-topsoil` and `lift-below` with the figures of layer and rule; `target-met` where nothing is to be limed;
those that were handed in, for instance of `acid.acid_made_good`; `too-little-to-spread`. Facts of a layer's step:
`ph`, `ph_low`, `ph_high`, `method`, `act_below`, `target`, `target_from` (`guideline` or `client`), `target_source`,
`top_cm`, `bottom_cm`, and those of the rule (`rule`, `limed_cm`, `rule_cm` and what it hangs on).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import fsum

from soilrota.agronomy.advice.basis import Basis
from soilrota.agronomy.advice.cautions import Caution
from soilrota.agronomy.advice.lime_buffer_rates import by_iowa, by_north_carolina, by_oregon, by_penn_state
from soilrota.agronomy.advice.lime_dressings import CULTIVATED, GRASS, dressings_of
from soilrota.agronomy.advice.lime_layers import Layer, layers_of
from soilrota.agronomy.advice.lime_rates import Rate, Reckoner, by_capacity, by_factor, by_rise
from soilrota.agronomy.advice.working import Beside, Part, need_of, part, total
from soilrota.agronomy.critical import is_under
from soilrota.agronomy.derived.intervals import Doubtful, propagate
from soilrota.guidelines.advice_regions import LimeRegion, lime_region
from soilrota.model.advice import Input, Need, NoNeed
from soilrota.model.findings import Fact
from soilrota.model.judgement import Rating, Refused, WhyNot

_RULES: Mapping[str, Reckoner] = {
    "uk-factor": by_factor,
    "south-australia": by_factor,
    "south-west-victoria": by_rise,
    "new-south-wales": by_capacity,
    "oregon-sikora": by_oregon,
    "penn-state": by_penn_state,
    "north-carolina": by_north_carolina,
    "iowa-buffer": by_iowa,
}


@dataclass(frozen=True, slots=True)
class LimeAsked:
    """What is asked besides the rule.

    Attributes:
        depth_cm: depth that the topsoil's lime is for [cm]; None for the rule's own, or that of the sampled layer.
        others: parts that add to the need or take off it, reckoned elsewhere: acid that is to be made good (see
            `acid.acid_made_good`), or what was applied since the sampling.
    """

    depth_cm: float | None = None
    others: tuple[Part, ...] = ()


def lime_need(basis: Basis, asked: LimeAsked | None = None) -> Need | NoNeed:
    """Return how much pure lime a zone needs [t/ha], or why nothing can be advised.

    Args:
        basis: what the advice rests on.
        asked: depth and further parts; None for the rule alone.
    """
    wanted, zone = asked or LimeAsked(), basis.zone
    region = lime_region(basis.country, basis.subdivision, zone.land_use)
    if region is None:
        return _no_need(basis, Refused(WhyNot.RULE_VOID, _nowhere(basis) | {"reason": "no-rule-here"}))
    layers = layers_of(basis, region, wanted.depth_cm)
    if isinstance(layers, Refused):
        return _no_need(basis, layers)
    rates = [_rate(basis, region, layer) for layer in layers]
    for layer, rate in zip(layers, rates, strict=True):
        if isinstance(rate, Refused) and not layer.is_met:
            return _no_need(basis, rate)
    known = [(layer, rate) for layer, rate in zip(layers, rates, strict=True) if isinstance(rate, Rate)]
    parts = [_part(layer, rate) for layer, rate in zip(layers, rates, strict=True)]
    lime = _Lime(basis, layers, tuple(rate for _, rate in known), (*parts, *wanted.others))
    return lime.need(total([part("lifted", _lifted(known)), *wanted.others]), region)


@dataclass(frozen=True, slots=True)
class _Lime:
    """What a need of lime is made of: its ground, its layers with their rates, its working."""

    basis: Basis
    layers: tuple[Layer, ...]
    rates: tuple[Rate, ...]
    parts: tuple[Part, ...]

    def need(self, whole: Doubtful, region: LimeRegion) -> Need:
        """Return the need that the working adds up to [t/ha], cut, and divided into dressings."""
        zone = self.basis.zone
        dressings = dressings_of(region, zone.texture, zone.land_use)
        cautions = [caution for rate in self.rates for caution in rate.cautions]
        if len(self.rates) < len(self.layers):
            cautions.append(Caution.RANGE_NOT_RECKONED)
        parts, amount = [*self.parts], whole
        if dressings is not None:
            amount = dressings.worth_spreading(whole)
            if whole.value > amount.value:
                facts: dict[str, Fact] = {"least": dressings.least}
                parts.append(part("too-little-to-spread", amount.value - whole.value, facts, dressings.cited))
                cautions.append(Caution.TOO_LITTLE_TO_SPREAD)
        beside = Beside(
            rating=_rating(self.basis, self.layers[0]),
            quantities=tuple(one for rate in self.rates for one in rate.quantities),
            probability=max(layer.below for layer in self.layers),
        )
        need = need_of(self.basis.ground, Input.LIME, parts, [dressings.cap] if dressings else [], beside, whole=amount)
        split = dressings.split(need.amount) if dressings else ()
        return replace(need, split=split, cautions=tuple(dict.fromkeys((*self._usual(need, split), *cautions))))

    def _usual(self, need: Need, split: tuple[float, ...]) -> list[Caution]:
        """Return the cautions that go with spreading lime; none where none is spread."""
        if need.amount <= 0:
            return []
        land_use = self.basis.zone.land_use
        deep = any(one.step.rule == "lift-below" for one in self.parts)
        asked = {
            Caution.DUST: True,
            Caution.APART_FROM_MANURE_AND_UREA: True,
            Caution.INCORPORATE: land_use in CULTIVATED,
            Caution.SURFACE_ONLY_GRASS: land_use in GRASS,
            Caution.DEEP_LIME_IS_SLOW: deep,
            Caution.RETEST_BEFORE_SECOND_DRESSING: bool(split),
            Caution.MORE_MAY_BE_NEEDED_LATER: fsum(step.amount for step in need.steps) > need.amount,
        }
        return [caution for caution, holds in asked.items() if holds]


def _rate(basis: Basis, region: LimeRegion, layer: Layer) -> Rate | Refused:
    """Return the rate of a layer by the region's rule; why there is none."""
    reckon = _RULES.get(region.rule)
    if reckon is None:
        facts = _nowhere(basis) | {"reason": "no-rate-rule", "ph": layer.ph.value, "target": layer.target}
        return Refused(WhyNot.RULE_VOID, facts)
    return reckon(basis, region, layer)


def _part(layer: Layer, rate: Rate | Refused) -> Part:
    """Return the step of one layer, as measured."""
    if layer.is_met or isinstance(rate, Refused):
        return part("target-met", 0.0, layer.facts, layer.target_cited)
    rule = "lift-topsoil" if layer.is_topsoil else "lift-below"
    amount = propagate(lambda ph, other: _layer_lime(layer, rate, ph, other), (layer.ph, rate.other))
    return part(rule, amount, {**layer.facts, **rate.facts}, rate.cited)


def _lifted(known: Sequence[tuple[Layer, Rate]]) -> Doubtful:
    """Return the lime of all layers together [t/ha]; what they share errs for all of them at once."""
    names = [rate.shares or str(at) for at, (_, rate) in enumerate(known)]
    others = {name: rate.other for name, (_, rate) in zip(names, known, strict=True)}
    order = list(others)

    def together(*values: float) -> float:
        phs, shared = values[: len(known)], dict(zip(order, values[len(known) :], strict=True))
        each = zip(known, phs, names, strict=True)
        return fsum(_layer_lime(layer, rate, ph, shared[name]) for (layer, rate), ph, name in each)

    return propagate(together, [*(layer.ph for layer, _ in known), *others.values()])


def _layer_lime(layer: Layer, rate: Rate, ph: float, other: float) -> float:
    """Return the lime of a layer [t/ha]: none from where liming starts on, never below nought."""
    return max(0.0, rate.formula(ph, other)) if is_under(ph, layer.act_below) else 0.0


def _rating(basis: Basis, layer: Layer) -> Rating | None:
    """Return the rating of a layer's pH; None where it has none."""
    return next((one for one in basis.ratings if one.result == layer.result), None)


def _nowhere(basis: Basis) -> dict[str, Fact]:
    """Return where the advice is asked."""
    region = "-".join(part for part in (basis.country, basis.subdivision) if part)
    return {"region": region, "land_use": basis.zone.land_use}


def _no_need(basis: Basis, why: Refused) -> NoNeed:
    """Return that no lime can be advised."""
    return NoNeed(*basis.ground, Input.LIME, why)
