"""How much pure lime lifts a layer, by the rule of its region: by texture, or by exchange capacity.

A factor by texture belongs to a whole class; where in the class a soil lies is not known, so it is taken to lie up to
half-way to the neighbouring classes of mineral soil (a house convention), 95 times of 100. A texture that the rule does
not name is taken in the middle of its two neighbours, both of them being the range, and is not verified. Rules that
rest on a buffer stand in `lime_buffer_rates`.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from soilrota.agronomy.advice.basis import Basis
from soilrota.agronomy.advice.cautions import Caution
from soilrota.agronomy.advice.lime_layers import Layer
from soilrota.agronomy.derived.intervals import Doubtful
from soilrota.guidelines.advice_regions import LimeRegion, alone_share, neighbours_of
from soilrota.guidelines.cited import Cited
from soilrota.guidelines.lime_rules import (
    lime_factor,
    lime_rules,
    new_south_wales_lime,
    rule_row,
    victoria_rise,
)
from soilrota.model.findings import Fact
from soilrota.model.guideline import Status
from soilrota.model.judgement import Quantity, Refused, WhyNot
from soilrota.model.results import Result

_PEAT = "peat"
_CAPACITY, _REPORTED = "exchange-capacity", "exchange-capacity.effective"
_CARBONS = ("organic-carbon.walkley-black", "organic-carbon.dry-combustion")


@dataclass(frozen=True, slots=True)
class Rate:
    """How the lime of a layer follows from its pH and from one thing more.

    Attributes:
        formula: takes the pH and the other number; returns pure lime [t/ha]. It falls with pH.
        other: factor, capacity, buffer or acidity, with its doubt.
        shares: what the other is of; rates that name the same share its doubt. Empty where it is of this layer alone.
        facts: figures of the rule.
        cited: where it comes from.
        quantities: derived quantities that went in.
        cautions: ids of cautions.
    """

    formula: Callable[[float, float], float]
    other: Doubtful
    cited: Cited
    shares: str = ""
    facts: Mapping[str, Fact] = field(default_factory=dict)
    quantities: tuple[Quantity, ...] = ()
    cautions: tuple[str, ...] = ()


#: Gives the rate of a layer, or why there is none.
Reckoner = Callable[[Basis, LimeRegion, Layer], "Rate | Refused"]


def by_factor(basis: Basis, region: LimeRegion, layer: Layer) -> Rate | Refused:
    """Return the rate of a rule with a factor by texture: the United Kingdom, South Australia.

    Source: rows `uk-factor` and `south-australia` of `lime_rules.yaml`.
    """
    texture, row = basis.zone.texture, rule_row(region.rule)
    mineral = [float(one[region.land]) for one in row["factors"] if one["textures"] and _PEAT not in one["textures"]]
    figure = of_texture(
        texture, lambda name: lime_factor(region.rule, name, region.land), [] if texture == _PEAT else mineral
    )
    if figure is None:
        return unknown_texture(texture, row["factors"])
    own_cm = float(row["depth_cm"][region.land])
    depth = (layer.limed_cm or own_cm) / own_cm
    facts: dict[str, Fact] = {"rule": region.rule, "factor": figure.amount.value, "pure_share": region.pure_share}
    facts |= {"limed_cm": layer.limed_cm or own_cm, "rule_cm": own_cm, **figure.facts}
    return Rate(
        formula=lambda ph, by: (layer.target - ph) * by * depth * region.pure_share,
        other=figure.amount,
        shares="texture",
        cited=figure.cited(lime_rules()[region.rule].cited),
        facts=facts,
    )


def by_rise(basis: Basis, region: LimeRegion, layer: Layer) -> Rate | Refused:
    """Return the rate of South-West Victoria: by what a tonne lifts, and more where organic carbon is high.

    Source: Southern Farming Systems, Lime applications: how much should I apply?
    """
    texture, row = basis.zone.texture, rule_row(region.rule)
    figure = of_texture(texture, victoria_rise, [float(one["rise"]) for one in row["rises"]])
    if figure is None:
        return unknown_texture(texture, row["rises"])
    carbon = _organic_carbon(basis, layer.result)
    more = row["carbon"]["more"] if carbon is not None and carbon > row["carbon"]["above"] else 0.0
    own_cm = float(row["layer_cm"])
    depth = (layer.limed_cm or own_cm) / own_cm
    facts: dict[str, Fact] = {"rule": region.rule, "rise": figure.amount.value, "more_for_carbon": more}
    facts |= {"limed_cm": layer.limed_cm or own_cm, "rule_cm": own_cm, **figure.facts}
    return Rate(
        formula=lambda ph, by: ((layer.target - ph) / by + more) * depth * region.pure_share,
        other=figure.amount,
        shares="texture",
        cited=figure.cited(lime_rules()[region.rule].cited),
        facts=facts if carbon is None else facts | {"organic_carbon": carbon},
        cautions=() if layer.is_topsoil else ("topsoil-property",),
    )


def by_capacity(basis: Basis, region: LimeRegion, layer: Layer) -> Rate | Refused:
    """Return the rate of New South Wales, by effective cation exchange capacity.

    The table gives pH that lime starts from and ends at; between printed ones the straight line is taken (common
    practice, no source). A soil below the table gets what its last line gives.

    Source: New South Wales Department of Primary Industries, Agfact AC.19 (unverified).
    """
    found = _capacity(basis, layer.result)
    if isinstance(found, Refused):
        return found
    capacity, quantities = found
    row = rule_row(region.rule)
    least, most = row["capacities"][0]["capacity"], row["capacities"][-1]["capacity"]
    if not least <= capacity.value <= most:
        return Refused(WhyNot.OUTSIDE_CALIBRATION, {"covariate": _CAPACITY, "value": capacity.value})
    own_cm = float(row["depth_cm"]["any"])
    depth = (layer.limed_cm or own_cm) / own_cm

    def lime(ph: float, by: float) -> float:
        curve = capacity_curve(min(max(by, least), most))
        return (read_off(curve, ph) - read_off(curve, layer.target)) * depth * region.pure_share

    return Rate(
        formula=lime,
        other=capacity,
        cited=lime_rules()[region.rule].cited,
        facts={
            "rule": region.rule, "exchange_capacity": capacity.value, "pure_share": region.pure_share,
            "limed_cm": layer.limed_cm or own_cm, "rule_cm": own_cm,
        },
        quantities=quantities,
        cautions=(Caution.BEYOND_TABLE,) if layer.ph.value < row["starts"][0] else (),
    )  # fmt: skip


def capacity_curve(capacity: float) -> tuple[tuple[float, float], ...]:
    """Return what the table of New South Wales says: pH, and the lime from there to the highest pH of it [t/ha].

    Args:
        capacity: effective cation exchange capacity [cmol(+)/kg], within the table.
    """
    rates = new_south_wales_lime(capacity)
    assert rates is not None  # within the table
    top = max(end for _, end in rates)

    def to_top(start: float) -> float:
        # The first way on from here, and from where it ends to the top.
        end, rate = next((to, rate) for (frm, to), rate in rates.items() if frm == start)
        return rate if end == top else rate + to_top(end)

    return (*((start, to_top(start)) for start, _ in rates), (top, 0.0))


def read_off(curve: Iterable[tuple[float, float]], at: float) -> float:
    """Return a curve of straight lines at a place; beyond its ends it stays what it is there.

    >>> read_off([(4.0, 3.0), (5.0, 1.0)], 4.5), read_off([(4.0, 3.0), (5.0, 1.0)], 3.0)
    (2.0, 3.0)
    """
    points = sorted(curve)
    places = [place for place, _ in points]
    if at <= places[0]:
        return points[0][1]
    if at >= places[-1]:
        return points[-1][1]
    upper = bisect_right(places, at)
    (left, first), (right, second) = points[upper - 1], points[upper]
    return first + (at - left) / (right - left) * (second - first)


@dataclass(frozen=True, slots=True)
class OfTexture:
    """A figure by texture with its doubt, and the textures that it was taken between; none where it is named itself."""

    amount: Doubtful
    texture: str
    between: tuple[str, ...] = ()

    @property
    def facts(self) -> dict[str, Fact]:
        """Return how it was found."""
        return {"texture": self.texture, **({"between": self.between} if self.between else {})}

    def cited(self, rule: Cited) -> Cited:
        """Return what stands behind it: a figure between two is no figure of the rule."""
        return Cited(rule.source, Status.UNVERIFIED, rule.note) if self.between else rule


def of_texture(texture: str, figure: Callable[[str], float | None], classes: Iterable[float]) -> OfTexture | None:
    """Return a figure by texture; between the neighbours of one that the rule does not name; None where it has neither.

    Args:
        texture: field texture.
        figure: gives the rule's figure of a texture; None where it names none.
        classes: figures of all classes that may be neighbours.
    """
    own = figure(texture)
    if own is not None:
        return OfTexture(within_class(own, classes), texture)
    pair = neighbours_of(texture)
    ends = [found for found in map(figure, pair or ()) if found is not None]
    if pair is None or len(ends) < len(pair):
        return None
    return OfTexture(Doubtful(sum(ends) / len(ends), min(ends), max(ends)), texture, pair)


def within_class(value: float, classes: Iterable[float]) -> Doubtful:
    """Return a figure of a class as it may be of a soil in it: half-way to the neighbours, mirrored at an end.

    >>> within_class(7, [6, 7, 8])
    Doubtful(value=7, low=6.5, high=7.5, is_censored=False)
    """
    others = sorted({one for one in classes if one != value})
    down = [value - one for one in others if one < value]
    up = [one - value for one in others if one > value]
    if not others:
        return Doubtful(value, value * (1 - alone_share()), value * (1 + alone_share()))
    below, above = min(down or up), min(up or down)
    return Doubtful(value, value - below / 2, value + above / 2)


def unknown_texture(texture: str, rows: Iterable[Mapping[str, Iterable[str]]]) -> Refused:
    """Return the refusal of a texture that a rule does not name, or that the map does not tell."""
    if not texture:
        return Refused(WhyNot.COVARIATE_MISSING, {"covariate": "texture"})
    return Refused(WhyNot.OTHER_GROUND, {"textures": tuple(one for row in rows for one in row["textures"])})


def _capacity(basis: Basis, result: Result) -> tuple[Doubtful, tuple[Quantity, ...]] | Refused:
    """Return the exchange capacity of a layer [cmol(+)/kg]: as reckoned, else as the laboratory reports it."""
    quantity = basis.quantity(_CAPACITY, result.top_cm, result.bottom_cm)
    if quantity is not None:
        return Doubtful(quantity.value, quantity.low, quantity.high), (quantity,)
    bag = basis.bag_with(result)
    if not bag.has(_REPORTED):
        return Refused(WhyNot.NOT_MEASURED, {"needs": (_CAPACITY,)})
    readings = bag.read(_REPORTED)
    return readings if isinstance(readings, Refused) else (readings[0].amount, ())


def _organic_carbon(basis: Basis, result: Result) -> float | None:
    """Return the organic carbon of a layer [%]; None where it was not measured."""
    bag = basis.bag_with(result)
    readings = bag.read(bag.first(*_CARBONS) or _CARBONS[0])
    return None if isinstance(readings, Refused) else readings[0].amount.value
