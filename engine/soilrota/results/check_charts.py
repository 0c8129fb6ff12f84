"""Blind check samples on control charts: whether a laboratory is in line, to be watched, or off, and since when.

Every check is held against the assigned value of its material, in standard deviations between runs, and the rules are
those of charts for single values with a known centre and spread. A laboratory that is off stays so until a later check
lies near the assigned value; the rules start afresh then.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from itertools import groupby

from soilrota.guidelines.check_samples import check_limits
from soilrota.model.check_charts import CheckChart, CheckLimits, CheckPoint, CheckRule, CheckState, OffSpell
from soilrota.model.check_values import CheckValue
from soilrota.model.practice import AssignedValue, CheckMaterial
from soilrota.model.result_findings import Grade, ResultFinding, ResultKey, ResultRule
from soilrota.model.results import Result

_LAST_FEW = 3


@dataclass(frozen=True, slots=True)
class Judged:
    """What the rules say of a series of checks: the state and rule after each, the spells, what the last rule spans.

    Attributes:
        states: a state and the rule behind it after each check.
        spells: when the laboratory was off.
        since: day of the first check that the last state's rule speaks of; None where no rule is broken.
    """

    states: tuple[tuple[CheckState, CheckRule | None], ...]
    spells: tuple[OffSpell, ...]
    since: date | None


def laboratory_state(
    values: Iterable[CheckValue],
    materials: Mapping[str, CheckMaterial],
    as_of: date,
    limits: CheckLimits | None = None,
) -> tuple[CheckChart, ...]:
    """Return a chart for every laboratory, material and analysis of which values came back, in the order of these.

    Args:
        values: what laboratories reported; of a report with several issues the highest stands.
        materials: the check materials by id; analyses that a material has no assigned value of have no chart.
        as_of: values reported later are not looked at.
        limits: the figures of the rules; the shipped ones when None.
    """
    standing = sorted(_standing(value for value in values if value.reported <= as_of), key=_chart_key)
    return tuple(
        _chart(list(group), assigned, limits or check_limits())
        for (_, material, analyte, method), group in groupby(standing, _chart_key)
        if (assigned := _assigned(materials, material, analyte, method)) is not None
    )


def uncharted(values: Iterable[CheckValue], materials: Mapping[str, CheckMaterial]) -> tuple[tuple[str, str, str], ...]:
    """Return laboratory, material and analysis code of values that no assigned value says anything of, in order."""
    return tuple(
        sorted(
            {
                (value.laboratory, value.material, f"{value.analyte}.{value.method}")
                for value in values
                if _assigned(materials, value.material, value.analyte, value.method) is None
            }
        )
    )


def _chart_key(value: CheckValue) -> tuple[str, str, str, str]:
    """Return which chart a value belongs to."""
    return value.laboratory, value.material, value.analyte, value.method


def _standing(values: Iterable[CheckValue]) -> Iterable[CheckValue]:
    """Return the values of the highest issue of each report, bag and analysis."""
    highest: dict[tuple[str, ...], CheckValue] = {}
    for value in values:
        name = (value.laboratory, value.report, value.bag, value.analyte, value.method)
        known = highest.get(name)
        if known is None or known.issue < value.issue:
            highest[name] = value
    return highest.values()


def _assigned(materials: Mapping[str, CheckMaterial], material: str, analyte: str, method: str) -> AssignedValue | None:
    """Return what a material holds of an analysis; None where nobody said."""
    known = materials.get(material)
    held = known.values if known is not None else ()
    return next((one for one in held if (one.analyte, one.method) == (analyte, method)), None)


def _chart(values: list[CheckValue], assigned: AssignedValue, limits: CheckLimits) -> CheckChart:
    """Return the chart of the values of one laboratory, material and analysis."""
    values.sort(key=lambda value: (value.reported, value.bag, value.report))
    deviations = [deviation(value, assigned, limits.warning) for value in values]
    judged = judge([(value.reported, z) for value, z in zip(values, deviations, strict=True)], limits)
    points = tuple(
        CheckPoint(value.reported, value.bag, value.report, value.qualifier, value.value, z, state, rule)
        for value, z, (state, rule) in zip(values, deviations, judged.states, strict=True)
    )
    told = [(state, rule) for state, rule in judged.states if state is not CheckState.UNTOLD]
    state, rule = told[-1] if told else (CheckState.UNTOLD, None)
    first = values[0]
    return CheckChart(
        laboratory=first.laboratory,
        material=first.material,
        analyte=first.analyte,
        method=first.method,
        unit=assigned.unit,
        assigned=assigned.value,
        sd=assigned.sd,
        points=points,
        spells=judged.spells,
        state=state,
        rule=rule,
        since=judged.since,
    )


def deviation(value: CheckValue, assigned: AssignedValue, tells: float) -> float | None:
    """Return by how many standard deviations a value lies off its assigned value.

    Of a value below or above what the laboratory reports, only the least deviation is known. That tells something
    where it is beyond the warning line already; a value said to be below a figure that lies above the assigned value,
    or near it, may be anything.

    Args:
        value: what was reported.
        assigned: what the material holds, in the same unit.
        tells: distance of the warning line [sd].

    Returns:
        (value - assigned) / sd [sd], or the least of it; None where nothing can be told.
    """
    if value.unit != assigned.unit:
        return None
    z = (value.value - assigned.value) / assigned.sd
    if not value.qualifier:
        return z
    at_least = -z if value.qualifier == "<" else z
    return z if at_least > tells else None


def judge(series: Sequence[tuple[date, float | None]], limits: CheckLimits) -> Judged:
    """Return what the rules say of a series of deviations.

    Args:
        series: day and deviation [sd] of each check, in order; None where nothing can be told: such a check neither
            breaks a rule nor ends a run.
        limits: the figures of the rules.
    """
    memory = _Memory(limits)
    states: list[tuple[CheckState, CheckRule | None]] = []
    spells: list[OffSpell] = []
    since: date | None = None
    in_line: list[date] = []
    for day, z in series:
        if z is None:
            states.append((CheckState.UNTOLD, None))
            continue
        is_off = bool(spells) and spells[-1].until is None
        if is_off and not (abs(z) <= limits.back and day > spells[-1].shown):
            states.append((CheckState.OFF, spells[-1].rule))
            continue
        if is_off:
            spells[-1] = replace(spells[-1], until=day)
            memory = _Memory(limits)
            broken = None
        else:
            broken = memory.broken_by(day, z)
        rule, since = broken or (None, None)
        state = limits.states[rule] if rule else CheckState.IN_LINE
        states.append((state, rule))
        if state is CheckState.IN_LINE:
            in_line.append(day)
        elif state is CheckState.OFF and rule and since:
            spells.append(OffSpell(rule, since, day, z, _last_before(in_line, since)))
    return Judged(tuple(states), tuple(spells), since)


def _last_before(days: Sequence[date], since: date) -> date | None:
    """Return the last of some days, in order, before a day; None where there is none."""
    return next((day for day in reversed(days) if day < since), None)


@dataclass(slots=True)
class _Sum:
    """A sum of deviations to one side, beyond the slack (Page 1954), and the day on which it left nought."""

    total: float = 0.0
    since: date = date.min

    def add(self, day: date, excess: float) -> float:
        """Add what a check deviates beyond the slack, never below nought; return the sum."""
        if not self.total:
            self.since = day
        self.total = max(0.0, self.total + excess)
        return self.total


@dataclass(slots=True)
class _Memory:
    """What the rules must remember of the checks since they began."""

    limits: CheckLimits
    last: list[tuple[date, float]] = field(default_factory=list)
    side: list[date] = field(default_factory=list)
    is_above: bool = False
    above: _Sum = field(default_factory=_Sum)
    below: _Sum = field(default_factory=_Sum)

    def broken_by(self, day: date, z: float) -> tuple[CheckRule, date] | None:
        """Return the rule that a check breaks, the gravest first, and the day of the first check it speaks of."""
        limits = self.limits
        self._remember(day, z)
        beyond = [(when, other) for when, other in self.last if abs(other) > limits.warning and other * z > 0]
        if abs(z) > limits.action:
            return CheckRule.ACTION, day
        if abs(z) > limits.warning and len(beyond) > 1:
            return CheckRule.PAIR, beyond[0][0]
        for side in (self.above, self.below):
            if side.total > limits.drift:
                return CheckRule.DRIFT, side.since
        if len(self.side) >= limits.one_side:
            return CheckRule.ONE_SIDE, self.side[0]
        return (CheckRule.WARNING, day) if abs(z) > limits.warning else None

    def _remember(self, day: date, z: float) -> None:
        """Add a check to what the rules look at."""
        self.last = [*self.last[1 - _LAST_FEW :], (day, z)]
        if not z or not self.side or (z > 0) is not self.is_above:
            self.side = []
        if z:
            self.side.append(day)
            self.is_above = z > 0
        self.above.add(day, z - self.limits.slack)
        self.below.add(day, -z - self.limits.slack)


def findings_for(results: Iterable[Result], charts: Iterable[CheckChart]) -> tuple[ResultFinding, ...]:
    """Return a doubt for every value that a laboratory reported while its check samples were off.

    A value is doubted where it was reported on or after the day of the last check in line before the laboratory went
    off, and before the day on which a check was in line again.

    Args:
        results: results of a client.
        charts: how laboratories measured check materials.
    """
    off: dict[tuple[str, str, str], list[tuple[CheckChart, OffSpell]]] = {}
    for chart in charts:
        for spell in chart.spells:
            off.setdefault((chart.laboratory, chart.analyte, chart.method), []).append((chart, spell))
    return tuple(
        _finding(result, chart, spell)
        for result in results
        for chart, spell in off.get((result.laboratory, result.analyte, result.method), ())
        if spell.doubts(result.reported)
    )


def _finding(result: Result, chart: CheckChart, spell: OffSpell) -> ResultFinding:
    """Return the doubt on one value."""
    return ResultFinding(
        key=ResultKey.of(result),
        rule=ResultRule.CHECK_SAMPLE,
        grade=Grade.DOUBT,
        analyses=(chart.analysis,),
        facts={"analysis": chart.analysis, "material": chart.material, "day": spell.shown, "z": spell.z},
        place=result.place,
    )
