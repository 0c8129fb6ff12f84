"""How much pure gypsum brings the sodium share of a layer down to a target.

    sodium to be changed = capacity x (share - target) / 100
    gypsum = 0.086086 x depth x bulk density x (1 - gravel) x sodium to be changed x F

F says by how much more real exchange takes, since it is never complete (1.1 to 1.3, from memory). Only where a row of
the zone's guideline sets calls the share an excess, and the share lies above that row's line. The topsoil alone, unless
a depth is asked: what lies deeper is reached over years of rain, if at all.

Steps: `sodium-to-change` and `incomplete-exchange` for each layer, `target-met`. Facts: `share`, `line`, `target` [%],
`capacity` [cmol(+)/kg], `sodium` [cmol(+)/kg], `top_cm`, `bottom_cm`, and those of `derived.soil_mass`.
`Need.probability` is that of the true share lying above the line.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil, fsum

from soilrota.agronomy.advice.basis import Basis
from soilrota.agronomy.advice.cautions import Caution
from soilrota.agronomy.advice.working import Beside, Part, need_of, part, total
from soilrota.agronomy.critical import clean, is_under
from soilrota.agronomy.derived.intervals import Doubtful, propagate
from soilrota.agronomy.derived.soil_mass import SoilMass, soil_mass
from soilrota.guidelines.advice_regions import gypsum_dressing
from soilrota.guidelines.gypsum import gypsum_figures, gypsum_requirement, gypsum_source
from soilrota.model.advice import Cap, Input, Need, NoNeed
from soilrota.model.findings import Fact
from soilrota.model.guideline import Sense
from soilrota.model.judgement import Quantity, Rating, Refused, WhyNot

_SHARE, _CAPACITY = "sodium-share", "exchange-capacity"


@dataclass(frozen=True, slots=True)
class GypsumAsked:
    """What is asked besides the guideline.

    Attributes:
        target_percent: sodium share that is aimed at [%]; None for the line of the guideline.
        to_cm: layers down to this depth are reckoned too [cm]; None for the topsoil alone.
        others: parts that add to the need or take off it, reckoned elsewhere: what was spread since the sampling.
    """

    target_percent: float | None = None
    to_cm: float | None = None
    others: tuple[Part, ...] = ()


@dataclass(frozen=True, slots=True)
class _Layer:
    """A layer whose sodium share is rated.

    Attributes:
        rating: its rating.
        quantity: its share, with what it is of.
        line, target: where it is too much, and what is aimed at [%].
        capacity: exchange capacity [cmol(+)/kg].
        soil: its fine earth; None where that cannot be told, and nothing needs to be changed.
    """

    rating: Rating
    quantity: Quantity
    line: float
    target: float
    capacity: Doubtful
    soil: SoilMass | None

    @property
    def is_met(self) -> bool:
        """Return whether nothing is to be changed, as measured."""
        return is_under(self.quantity.value, self.line)

    @property
    def depth_cm(self) -> float:
        """Return its thickness [cm]."""
        return self.quantity.bottom_cm - self.quantity.top_cm

    def gypsum(self, share: float, capacity: float, density: float, gravel: float) -> float:
        """Return the gypsum before F [t/ha]; none where the share does not lie above the line."""
        if is_under(share, self.line):
            return 0.0
        sodium = max(0.0, capacity * (share - self.target) / 100)
        return gypsum_requirement(sodium, self.depth_cm, density) * (1 - gravel)

    @property
    def inputs(self) -> tuple[Doubtful, ...]:
        """Return what `gypsum` takes, with its doubt."""
        assert self.soil is not None
        share = Doubtful(self.quantity.value, self.quantity.low, self.quantity.high)
        return share, self.capacity, self.soil.density, self.soil.gravel


def gypsum_need(basis: Basis, asked: GypsumAsked | None = None) -> Need | NoNeed:
    """Return how much pure gypsum a zone needs [t/ha], or why nothing can be advised.

    Args:
        basis: what the advice rests on.
        asked: another target, or deeper layers; None for the guideline's line in the topsoil.
    """
    wanted = asked or GypsumAsked()
    layers = _layers(basis, wanted)
    if isinstance(layers, Refused):
        return NoNeed(*basis.ground, Input.GYPSUM, layers)
    figures = gypsum_figures("incomplete")
    more = Doubtful((figures["low"] + figures["high"]) / 2, figures["low"], figures["high"])
    known = [layer for layer in layers if layer.soil is not None]
    parts = [*(one for layer in layers for one in _parts(layer, more.value)), *wanted.others]
    whole = total([part("changed", _whole(known, more)), *wanted.others])
    dressing = gypsum_dressing()
    facts: dict[str, Fact] = {"one_dressing": dressing.most, "dressings": dressing.dressings}
    most = dressing.most * dressing.dressings
    cap = Cap(most, "most-dressings", facts, dressing.cited.source, dressing.cited.status)
    beside = Beside(
        rating=layers[0].rating,
        quantities=tuple(layer.quantity for layer in layers),
        probability=max((1 - layer.rating.below for layer in layers if layer.rating.below is not None), default=None),
    )
    need = need_of(basis.ground, Input.GYPSUM, parts, [cap], beside, whole=whole)
    count = min(ceil(clean(need.amount / dressing.most)), dressing.dressings)
    split = (need.amount / count,) * count if count > 1 else ()
    divided = replace(need, split=split)
    return replace(divided, cautions=_cautions(divided, known))


def _layers(basis: Basis, wanted: GypsumAsked) -> list[_Layer] | Refused:
    """Return the layers that are rated, the topsoil first; why there are none."""
    rated = sorted(
        (one for one in basis.ratings if one.row.analyte == _SHARE and one.row.sense is Sense.EXCESS),
        key=lambda one: (one.result.top_cm, one.result.bottom_cm),
    )
    found: list[_Layer] = []
    reached_cm = 0.0
    for rating in rated:
        top_cm, bottom_cm = rating.result.top_cm, rating.result.bottom_cm
        if top_cm < reached_cm or (top_cm > 0 and bottom_cm > (wanted.to_cm or 0.0)):
            continue
        layer = _layer(basis, rating, wanted)
        if isinstance(layer, Refused):
            return layer
        if layer is not None:
            found.append(layer)
            reached_cm = bottom_cm
    return found or _no_rating(basis)


def _layer(basis: Basis, rating: Rating, wanted: GypsumAsked) -> _Layer | Refused | None:
    """Return a layer; why it cannot be reckoned; None where its row has no line, or its share is not at hand."""
    top_cm, bottom_cm = rating.result.top_cm, rating.result.bottom_cm
    quantity = basis.quantity(_SHARE, top_cm, bottom_cm)
    if quantity is None or rating.critical is None:
        return None
    capacity = basis.quantity(_CAPACITY, top_cm, bottom_cm)
    known = quantity.facts["capacity"]
    assert isinstance(known, float)
    mass = soil_mass(basis.bag_with(rating.result))
    if isinstance(mass, Refused) and not is_under(quantity.value, rating.critical):
        return mass
    line_target = rating.critical if rating.row.target is None else rating.row.target
    return _Layer(
        rating=rating,
        quantity=quantity,
        line=rating.critical,
        target=line_target if wanted.target_percent is None else wanted.target_percent,
        capacity=Doubtful(capacity.value, capacity.low, capacity.high) if capacity else Doubtful(known, known, known),
        soil=None if isinstance(mass, Refused) else mass,
    )


def _parts(layer: _Layer, more: float) -> tuple[Part, ...]:
    """Return the steps of one layer."""
    top_cm, bottom_cm = layer.quantity.top_cm, layer.quantity.bottom_cm
    facts: dict[str, Fact] = {
        "share": layer.quantity.value,
        "line": layer.line,
        "target": layer.target,
        "top_cm": top_cm,
        "bottom_cm": bottom_cm,
    }
    if layer.is_met or layer.soil is None:
        return (part("target-met", 0.0, facts),)
    sodium = layer.capacity.value * (layer.quantity.value - layer.target) / 100
    facts |= {"capacity": layer.capacity.value, "sodium": max(0.0, sodium), **layer.soil.facts}
    plain = layer.gypsum(*(one.value for one in layer.inputs))
    figures: dict[str, Fact] = {"factor": more, **gypsum_figures("incomplete")}
    return (
        part("sodium-to-change", plain, facts, gypsum_source("requirement")),
        part("incomplete-exchange", plain * (more - 1), figures, gypsum_source("incomplete")),
    )


def _whole(layers: Sequence[_Layer], more: Doubtful) -> Doubtful:
    """Return the gypsum of all layers with its range [t/ha]; they share F."""
    size = 4

    def together(*values: float) -> float:
        plain = (layer.gypsum(*values[size * at : size * at + size]) for at, layer in enumerate(layers))
        return fsum(plain) * values[-1]

    return propagate(together, [*(one for layer in layers for one in layer.inputs), more])


def _no_rating(basis: Basis) -> Refused:
    """Return why no share is rated as an excess."""
    shares = [one for one in basis.quantities if one.code == _SHARE]
    if not shares:
        return Refused(WhyNot.NOT_MEASURED, {"needs": (_SHARE,)})
    if all(one.top_cm > 0 for one in shares):
        return Refused(
            WhyNot.OTHER_LAYER, {"layers": ("0-",), "layer": f"{shares[0].top_cm:g}-{shares[0].bottom_cm:g}"}
        )
    return Refused(WhyNot.NOT_IN_SET, {"analyte": _SHARE})


def _cautions(need: Need, layers: Sequence[_Layer]) -> tuple[str, ...]:
    """Return the cautions that go with spreading gypsum; none where none is spread."""
    if need.amount <= 0:
        return ()
    inherited = {caution for layer in layers for caution in layer.quantity.cautions}
    soils = {caution for layer in layers if layer.soil for caution in layer.soil.cautions}
    asked = {
        Caution.DRAINAGE_FIRST: True,
        Caution.NOT_WHERE_SALINE_WITHOUT_DRAINAGE: True,
        Caution.DISSOLVES_SLOWLY: True,
        Caution.TEST_STRIP_FIRST: True,
        Caution.RETEST_BEFORE_SECOND_DRESSING: bool(need.split),
        Caution.MORE_MAY_BE_NEEDED_LATER: fsum(step.amount for step in need.steps) > need.amount,
        Caution.SODIUM_UNCORRECTED: Caution.SODIUM_UNCORRECTED in inherited,
    }
    return (*(caution for caution, holds in asked.items() if holds), *sorted(soils))
