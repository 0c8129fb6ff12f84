"""What one bag holds, as numbers with their doubt, in the unit that a formula wants; or why a number is not there."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import isfinite

from soilrota.agronomy.derived.intervals import Doubtful, with_cv
from soilrota.guidelines.laboratory_spread import laboratory_cv
from soilrota.model.client import Zone
from soilrota.model.judgement import Refused, WhyNot
from soilrota.model.results import Result
from soilrota.quantities import Refusal, convert, factor, method, split_code

#: How much a result may be off: its coefficient of variation [-]. The result comes in the unit of the glossary.
Spread = Callable[[Result], float]


def between_laboratories(result: Result) -> float:
    """Return how much laboratories differ on one soil [-], from the shipped table; not how much the ground differs."""
    return laboratory_cv(f"{result.analyte}.{result.method}", result.value)


@dataclass(frozen=True, slots=True)
class Reading:
    """A result, and the number that it gives in the unit that was asked for."""

    result: Result
    amount: Doubtful

    @property
    def code(self) -> str:
        """Return the analysis, analyte.method."""
        return f"{self.result.analyte}.{self.result.method}"


@dataclass(frozen=True, slots=True)
class Bag:
    """The results of one bag.

    Attributes:
        zone: the zone that it stands for.
        top_cm, bottom_cm: its layer [cm].
        results: by analysis; of one that comes twice the last stands.
        spread: how much a result may be off.
    """

    zone: Zone
    top_cm: float
    bottom_cm: float
    results: Mapping[str, Result]
    spread: Spread = between_laboratories

    @property
    def depth_cm(self) -> float:
        """Return the thickness of the layer [cm]."""
        return self.bottom_cm - self.top_cm

    def has(self, *codes: str) -> bool:
        """Return whether all of these were measured."""
        return all(code in self.results for code in codes)

    def first(self, *codes: str) -> str:
        """Return the first of these that was measured; empty where none was."""
        return next((code for code in codes if code in self.results), "")

    def read(self, *codes: str, unit: str = "") -> tuple[Reading, ...] | Refused:
        """Return the readings of analyses in a unit, that of the glossary where none is asked for; or why not.

        A result below a limit is all from the glossary's lower limit to it; one above a limit has no end, so nothing is
        reckoned from it.
        """
        lacking = tuple(code for code in codes if code not in self.results)
        if lacking:
            return Refused(WhyNot.NOT_MEASURED, {"needs": lacking})
        found = tuple(self._reading(code, unit) for code in codes)
        readings = tuple(one for one in found if isinstance(one, Reading))
        return next((one for one in found if isinstance(one, Refused)), readings)

    def _reading(self, code: str, unit: str) -> Reading | Refused:
        """Return one reading; why not where its value or its unit is of no use."""
        result = self.results[code]
        if result.qualifier == ">":
            return Refused(WhyNot.CENSORED, {"analysis": code, "qualifier": ">", "value": result.value})
        if not isfinite(result.value) or result.value < 0:
            return Refused(WhyNot.RULE_VOID, {"reason": "below-nought", "analysis": code, "value": result.value})
        known = method(*split_code(code))
        own_unit = known.unit if known else result.unit
        value = convert(result.value, result.unit, own_unit, result.analyte)
        by = factor(own_unit, unit or own_unit, result.analyte)
        if isinstance(value, Refusal) or isinstance(by, Refusal):
            refusal = value if isinstance(value, Refusal) else by
            assert isinstance(refusal, Refusal)
            facts = {"reason": "unit", "analysis": code, "unit": result.unit, "expected": refusal.expected}
            return Refused(WhyNot.RULE_VOID, facts)
        if result.qualifier == "<":
            least = min(known.low if known else 0.0, value)
            amount = Doubtful((least + value) / 2, least, value, is_censored=True)
        else:
            amount = with_cv(value, self.spread(replace(result, value=value, unit=own_unit)))
        return Reading(result, amount.times(by))


def bag_of(results: Sequence[Result], zone: Zone, spread: Spread = between_laboratories) -> Bag:
    """Return the results of one bag as what quantities are reckoned from.

    Args:
        results: at least one, all of one layer of the zone, sampled on one day.
        zone: the zone.
        spread: how much a result may be off.

    Raises:
        ValueError: the results are not of one bag: a fault of the program.
    """
    layers = {(one.farm, one.zone, one.top_cm, one.bottom_cm, one.sampled) for one in results}
    if len(layers) != 1 or (results[0].farm, results[0].zone) != (zone.farm, zone.id):
        raise ValueError(f"not one layer of {zone.farm}/{zone.id} on one day: {sorted(layers)}")
    by_code = {f"{one.analyte}.{one.method}": one for one in results}
    return Bag(zone, results[0].top_cm, results[0].bottom_cm, by_code, spread)
