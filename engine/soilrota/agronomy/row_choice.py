"""Which row of the guideline sets speaks of a result, or why none does.

A row speaks of a result where analyte, method, unit and layer are its own and every condition that it names holds; the
one with most conditions is taken (an exact layer counts as one), then the first. Sets are asked in their order: the
first that has such a row gives it. Where none has, the refusal tells the last step that any row reached: a set that
knows the analysis, but by another method, is more worth saying than that ten others do not know it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from soilrota.agronomy.critical import clean, value_on
from soilrota.guidelines.choosing import goals_of
from soilrota.guidelines.classes import holds, speaks_of_layer
from soilrota.model.client import Zone
from soilrota.model.findings import Fact
from soilrota.model.guideline import GuidelineRow, GuidelineSet
from soilrota.model.judgement import Covariate, Refused, WhyNot
from soilrota.model.results import Result


@dataclass(frozen=True, slots=True)
class Ground:
    """What rows may ask of the ground of a result.

    Attributes:
        land_use, texture, rainfall_zone: as the map has them; empty where it does not say.
        crops: crops of the plan; empty where there is none.
        covariates: what is known of them, by code.
        goal: the yield goal that was chosen; a set that does not serve it takes its own.
    """

    land_use: str = ""
    texture: str = ""
    rainfall_zone: str = ""
    crops: tuple[str, ...] = ()
    covariates: Mapping[str, Covariate] = field(default_factory=dict)
    goal: str = ""


@dataclass(frozen=True, slots=True)
class Chosen:
    """The row that speaks of a result, and the set that it stands in."""

    set: GuidelineSet
    row: GuidelineRow


@dataclass(frozen=True, slots=True)
class _Asked:
    """One text condition of a row: the plural by which facts name it, what the row wants, what the ground has."""

    singular: str
    plural: str
    wanted: tuple[str, ...]
    found: tuple[str, ...]

    @property
    def is_unknown(self) -> bool:
        """Return whether the ground does not say."""
        return bool(self.wanted) and not self.found

    @property
    def fails(self) -> bool:
        """Return whether the condition does not hold, for all that is known."""
        return bool(self.wanted) and not set(self.wanted) & set(self.found)


def ground_of(zone: Zone, covariates: Mapping[str, Covariate], crops: Iterable[str] = (), goal: str = "") -> Ground:
    """Return what rows may ask of a zone."""
    return Ground(zone.land_use, zone.texture, zone.rainfall_zone, tuple(crops), covariates, goal)


def choose_row(result: Result, sets: Sequence[GuidelineSet], ground: Ground) -> Chosen | Refused:
    """Return the row that speaks of a result, or why none does.

    Args:
        result: the result.
        sets: guideline sets, the one that goes first first.
        ground: what rows may ask.
    """
    if not sets:
        return Refused(WhyNot.NO_SET)
    rows = [Chosen(one, row) for one in sets for row in one.rows if row.analyte == result.analyte]
    if not rows:
        return Refused(WhyNot.NOT_IN_SET, {"sets": tuple(one.id for one in sets)})
    measured = [one for one in rows if (one.row.method, one.row.unit) == (result.method, result.unit)]
    if not measured:
        return _other_method(result, rows)
    deep = [one for one in measured if speaks_of_layer(one.row, result.top_cm, result.bottom_cm)]
    if not deep:
        return _other_layer(result, measured)
    held = [one for one in deep if not any(asked.fails for asked in _asked(one, ground))]
    if not held:
        return _other_ground(deep, ground)
    within = [one for one in held if not any(_faults(one.row, ground))]
    if not within:
        return _outside(held, ground)
    first = [one for one in within if one.set.id == within[0].set.id]
    return max(first, key=lambda one: _conditions(one.row, result))


def conditions_met(row: GuidelineRow, ground: Ground) -> tuple[Covariate, ...]:
    """Return the covariates that a row hangs on, as far as they are known, each once."""
    codes = dict.fromkeys((*(held.covariate for held in row.ranges), *((row.line.covariate,) if row.line else ())))
    return tuple(ground.covariates[code] for code in codes if code in ground.covariates)


def _conditions(row: GuidelineRow, result: Result) -> int:
    """Return how many conditions a row names, an exact layer among them; `max` keeps the first of equals."""
    is_exact = (row.top_cm, row.bottom_cm) == (result.top_cm, result.bottom_cm)
    named = (row.land_uses, row.crops, row.textures, row.rainfall_zones, row.goals, is_exact)
    return sum(map(bool, named)) + len(row.ranges)


def _asked(one: Chosen, ground: Ground) -> tuple[_Asked, ...]:
    """Return the text conditions of a row against the ground."""
    row = one.row
    # A goal that the set does not serve is not asked of it: the set's own stands.
    goal = ground.goal if row.goals and ground.goal in goals_of(one.set) else one.set.goal

    def told(text: str) -> tuple[str, ...]:
        return (text,) if text else ()

    return (
        _Asked("land-use", "land_uses", row.land_uses, told(ground.land_use)),
        _Asked("crop", "crops", row.crops, ground.crops),
        _Asked("texture", "textures", row.textures, told(ground.texture)),
        _Asked("rainfall-zone", "rainfall_zones", row.rainfall_zones, told(ground.rainfall_zone)),
        _Asked("goal", "goals", row.goals, told(goal)),
    )


def _faults(row: GuidelineRow, ground: Ground) -> Iterator[tuple[str, float | None]]:
    """Yield covariates that keep a row from speaking, with the value; None where it is not known."""
    for held in row.ranges:
        covariate = ground.covariates.get(held.covariate)
        if covariate is None:
            yield held.covariate, None
        elif not holds(held, clean(covariate.value)):
            yield held.covariate, covariate.value
    if row.line is not None:
        followed = ground.covariates.get(row.line.covariate)
        if followed is None:
            yield row.line.covariate, None
        elif value_on(row.line, followed.value) is None:
            yield row.line.covariate, followed.value


def _other_method(result: Result, rows: Sequence[Chosen]) -> Refused:
    """Return the refusal of a method or a basis that no row speaks of."""
    methods = _each(one.row.method for one in rows)
    units = _each(one.row.unit for one in rows if one.row.method == result.method) or _each(
        one.row.unit for one in rows
    )
    facts: dict[str, Fact] = {"method": result.method, "methods": methods, "unit": result.unit, "units": units}
    return Refused(WhyNot.OTHER_METHOD, facts)


def _other_layer(result: Result, rows: Sequence[Chosen]) -> Refused:
    """Return the refusal of a layer that no row speaks of."""
    layers = _each(f"{one.row.top_cm:g}-{one.row.bottom_cm:g}" for one in rows)
    return Refused(WhyNot.OTHER_LAYER, {"layer": f"{result.top_cm:g}-{result.bottom_cm:g}", "layers": layers})


def _other_ground(rows: Sequence[Chosen], ground: Ground) -> Refused:
    """Return the refusal of ground that no row speaks of; what is not known goes before what is known and differs."""
    failing = [[asked for asked in _asked(one, ground) if asked.fails] for one in rows]
    for faults in failing:
        if all(asked.is_unknown for asked in faults):
            return Refused(WhyNot.COVARIATE_MISSING, {"covariate": faults[0].singular})
    wanted: dict[str, tuple[str, ...]] = {}
    for faults in failing:
        for asked in faults:
            wanted[asked.plural] = _each((*wanted.get(asked.plural, ()), *asked.wanted))
    return Refused(WhyNot.OTHER_GROUND, dict(wanted))


def _outside(rows: Sequence[Chosen], ground: Ground) -> Refused:
    """Return the refusal of covariates that are not known, or lie outside every row."""
    failing = [list(_faults(one.row, ground)) for one in rows]
    for faults in failing:
        if all(value is None for _, value in faults):
            return Refused(WhyNot.COVARIATE_MISSING, {"covariate": faults[0][0]})
    covariate, value = next((code, value) for faults in failing for code, value in faults if value is not None)
    return Refused(WhyNot.OUTSIDE_CALIBRATION, {"covariate": covariate, "value": value})


def _each(texts: Iterable[str]) -> tuple[str, ...]:
    """Return texts, each once, in their order."""
    return tuple(dict.fromkeys(texts))
