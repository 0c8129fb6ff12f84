"""Where cores come from: what is wanted of a zone's layout, and the points with the reasons as data."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from soilrota.model.ground import AvoidedPlace, Outline, Position
from soilrota.model.protocol import Layer
from soilrota.problems import Place

#: A fact that a reason carries; words are made of it at the edge.
Fact = str | int | float | tuple[str, ...]


class Pattern(StrEnum):
    """How the cores of a composite lie."""

    TRANSECT = "transect"
    ZIGZAG = "zigzag"
    CLUSTER = "cluster"
    STRATA = "strata"


@dataclass(frozen=True, slots=True)
class Rows:
    """Crop rows with fertiliser in bands: the distance between rows [cm]."""

    spacing_cm: float


@dataclass(frozen=True, slots=True)
class KeptDistance:
    """The distance that cores keep from a class of places [m], and where the figure comes from."""

    metres: float
    source: str


@dataclass(frozen=True, slots=True)
class BandRatio:
    """Cores between the rows for one core in the row [-], for rows so far apart [cm]."""

    row_spacing_cm: float
    between: float


@dataclass(frozen=True, slots=True)
class LayoutFigures:
    """The figures that layouts are made with.

    Attributes:
        edge: distance from the zone's own edge.
        classes: distance by class of place.
        least_spacing_m: smallest distance between two cores by pattern [m]; 0 where none is kept.
        cluster_radius_m: how far the cores of a cluster lie from its fixed point at most [m].
        narrow_m: a zone of which no part is wider than this after the buffers is too narrow for a zigzag [m].
        least_legs: straight pieces of a zigzag at least [-].
        reach_m: how far a point of an earlier sampling may move at most before all are laid anew [m].
        bands: published ratios, by row spacing.
        bands_source: where they come from.
        walking_speed_km_h: mean speed between cores [km/h].
        source: of the figures without one of their own.
    """

    edge: KeptDistance
    classes: Mapping[str, KeptDistance]
    least_spacing_m: Mapping[Pattern, float]
    cluster_radius_m: float
    narrow_m: float
    least_legs: int
    reach_m: float
    bands: tuple[BandRatio, ...]
    bands_source: str
    walking_speed_km_h: float
    source: str


@dataclass(frozen=True, slots=True)
class EarlierPoint:
    """A point of an earlier sampling: its number in that walk, where [degree], whether it lay in the row."""

    number: int
    position: Position
    in_row: bool = False


@dataclass(frozen=True, slots=True)
class LayoutWish:
    """What is wanted of one zone under one protocol.

    Attributes:
        outline: the zone.
        avoided: places of its farm that cores keep away from.
        access: where a crew starts [degree]; None when not known.
        pattern: how the cores should lie.
        layers: depth layers with their cores; the layer with the most cores says how many points there are.
        spacing_m: distance between cores along the walk that is asked for [m]; None spreads them over the whole line.
        edge_m: distance from the zone's edge [m]; None for the default.
        fixed_point: middle of a cluster [degree]; None for the point that lies deepest inside.
        rows: crop rows with banded fertiliser; None without.
        earlier: points sampled before, in their order; empty for a first layout.
        seed: makes a random layout repeatable; the same text, the same points.
    """

    outline: Outline
    avoided: tuple[AvoidedPlace, ...]
    access: Position | None
    pattern: Pattern
    layers: tuple[Layer, ...]
    spacing_m: float | None = None
    edge_m: float | None = None
    fixed_point: Position | None = None
    rows: Rows | None = None
    earlier: tuple[EarlierPoint, ...] = ()
    seed: str = ""

    @property
    def cores(self) -> int:
        """Number of points [-]: the cores of the layer with the most."""
        return max(layer.cores for layer in self.layers)


class LayoutRule(StrEnum):
    """What a layout's reason speaks of."""

    #: Distances taken out: `places` [-], `edge_m` [m], `taken_share` of the zone's area [-].
    TAKEN_OUT = "taken-out"
    #: Nothing is left after the distances: `edge_m` [m], `area_ha` [ha].
    NOTHING_LEFT = "nothing-left"
    #: What is left lies in `pieces` [-]; the pattern used the largest, `share` of what is left [-].
    IN_PIECES = "in-pieces"
    #: The longest straight line is `longest_m` [m]; the cores need `needed_m` [m].
    LINE_TOO_SHORT = "line-too-short"
    #: The walk is `longest_m` [m] long, the cores need `needed_m` [m].
    WALK_TOO_SHORT = "walk-too-short"
    #: No part is wider than `width_m` [m], less than `needed_m` [m].
    TOO_NARROW = "too-narrow"
    #: Only `fit` cores of `wanted` fit round the fixed point within `radius_m` [m].
    TOO_FEW_FIT = "too-few-fit"
    #: The fixed point lies outside what is left; `metres` [m] away is the nearest place, which was used.
    FIXED_POINT_MOVED = "fixed-point-moved"
    #: The `pattern` was used instead of the `wanted` one.
    OTHER_PATTERN = "other-pattern"
    #: The `asked_m` spacing does not fit, or is under the least; `used_m` was used [m].
    SPACING_REDUCED = "spacing-reduced"
    #: The same `points` as at the sampling before.
    KEPT = "kept"
    #: `moved` points of `points` lie elsewhere than before, at most `metres` away [m].
    MOVED = "moved"
    #: The earlier points could not be kept (other number of points or nothing near): all are new.
    ALL_NEW = "all-new"
    #: Cores in the row `in_row` and between rows `between` for `row_spacing_cm`.
    BANDED = "banded"


@dataclass(frozen=True, slots=True)
class LayoutReason:
    """Why a layout is as it is: the rule, its facts, the map feature it is about."""

    rule: LayoutRule
    facts: Mapping[str, Fact] = field(default_factory=dict)
    place: Place | None = None


@dataclass(frozen=True, slots=True)
class CorePoint:
    """One point of the walk.

    Attributes:
        number: its place in the walking order, from 1.
        position: where [degree].
        layers: the layers taken here, as (top, bottom) [cm].
        in_row: whether the core is taken in the row with the band; always False without banded rows.
    """

    number: int
    position: Position
    layers: tuple[tuple[float, float], ...]
    in_row: bool = False


@dataclass(frozen=True, slots=True)
class MovedPoint:
    """A point that lies elsewhere than before: its number now, and how far it moved [m]."""

    number: int
    metres: float


@dataclass(frozen=True, slots=True)
class ZoneLayout:
    """Where the cores of one zone come from.

    Attributes:
        wanted: the pattern asked for.
        pattern: the pattern used; None where none fits, and then there are no points.
        points: in walking order.
        walk: the line walked, through every point [degree].
        walk_m: length of that line [m].
        approach_m: from the way in to the first point, straight [m]; None where the way in is not known.
        spacing_m: smallest distance between two points [m]; 0 with fewer than two.
        free: what is left of the zone; None where nothing is.
        free_ha: its area [ha].
        kept_away: what the places to avoid take out, buffers included, for the map; None where nothing.
        moved: points that lie elsewhere than at the sampling before.
        reasons: in order of thought.
    """

    wanted: Pattern
    pattern: Pattern | None
    points: tuple[CorePoint, ...]
    walk: tuple[Position, ...]
    walk_m: float
    approach_m: float | None
    spacing_m: float
    free: Outline | None
    free_ha: float
    kept_away: Outline | None
    moved: tuple[MovedPoint, ...]
    reasons: tuple[LayoutReason, ...]
