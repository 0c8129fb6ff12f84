"""Check samples in words: how a laboratory stands, by which rule, and what to do."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from math import floor, log10

from soilrota.documents.dates import counted, long_day
from soilrota.model.check_charts import CheckChart, CheckLimits, CheckPoint, CheckRule, CheckState, OffSpell
from soilrota.quantities import analysis_name

#: What stands on papers for a state.
STATES = {
    CheckState.OFF: "Off",
    CheckState.WATCH: "Watch",
    CheckState.IN_LINE: "In line",
    CheckState.UNTOLD: "Cannot tell",
}
_RULES = {
    CheckRule.ACTION: "rule of the action line",
    CheckRule.PAIR: "rule of two in three",
    CheckRule.DRIFT: "rule of the slow drift",
    CheckRule.ONE_SIDE: "rule of one side",
    CheckRule.WARNING: "rule of the warning line",
}


def figure_of(value: float, sd: float) -> str:
    """Return a value with as many decimals as its standard deviation makes sensible.

    >>> figure_of(38.3, 2.1), figure_of(5.64, 0.08), figure_of(0.156, 0.012), figure_of(1200, 40)
    ('38.3', '5.64', '0.156', '1,200')
    """
    return f"{value:,.{_decimals(sd)}f}"


def _decimals(sd: float) -> int:
    """Return how many decimals a standard deviation makes sensible [-]."""
    return max(0, -floor(log10(sd / 3)))


def as_reported(point: CheckPoint, sd: float) -> str:
    """Return the reported figure, with noughts so that figures of one chart have the same decimals; a limit as it is.

    >>> from dataclasses import replace
    >>> from datetime import date
    >>> point = CheckPoint(date(2026, 1, 1), "", "", "", 0.2, None, CheckState.UNTOLD, None)
    >>> as_reported(point, 0.012), as_reported(point, 20), as_reported(replace(point, qualifier="<"), 0.012)
    ('0.200', '0.2', '<0.2')
    """
    exact = f"{Decimal(f'{point.value:.10g}'):,f}"
    written = len(exact.partition(".")[2])
    is_exact = bool(point.qualifier) or written > _decimals(sd)
    return f"{point.qualifier}{exact if is_exact else figure_of(point.value, sd)}"


def with_unit(figure: str, unit: str) -> str:
    """Return a figure with its unit; pH and indices have none.

    >>> with_unit("5.4", "pH"), with_unit("32", "mg/kg")
    ('5.4', '32 mg/kg')
    """
    return figure if unit in {"pH", "index"} else f"{figure} {unit}"


def off_by(point: CheckPoint) -> str:
    """Return how far a check lies off, in standard deviations and words; empty where that cannot be told.

    >>> from datetime import date
    >>> off_by(CheckPoint(date(2026, 1, 1), "", "", "", 36.6, 2.19, CheckState.WATCH, None))
    '2.2 sd above'
    """
    if point.z is None:
        return ""
    if not round(point.z, 1):
        return "on the line"
    least = "at least " if point.qualifier else ""
    return f"{least}{abs(point.z):.1f} sd {'above' if point.z > 0 else 'below'}"


def standing(chart: CheckChart, limits: CheckLimits, language: str) -> str:
    """Return how a laboratory stands for one analysis and what to do, in a sentence or two."""
    if chart.state is CheckState.UNTOLD:
        return (
            "Every value lies outside what the laboratory reports, so nothing can be told. Ask the laboratory for "
            "wider limits, or send a material that lies within them."
        )
    if chart.state is CheckState.OFF:
        return _off(chart, limits, language)
    last = next(point for point in reversed(chart.points) if point.z is not None)
    where = off_by(last)
    near = "on the assigned value" if where == "on the line" else f"{where} the assigned value"
    said = f"The last check, reported on {long_day(last.day, language)}, lies {near}."
    if chart.state is CheckState.WATCH and chart.rule:
        rule = _broken(chart.rule, limits, _side(last.z or 0))
        return f"{rule} {said} Results are used as they are; send another check sample soon."
    return f"{said} Nothing to do.{_earlier(chart.spells, language)}"


def _off(chart: CheckChart, limits: CheckLimits, language: str) -> str:
    """Return that a laboratory is off, since when, by which rule, and what that means for results."""
    spell = chart.spells[-1]
    name = analysis_name(chart.analysis)
    doubt = (
        f"{name} results reported since {long_day(spell.in_line_before, language)}, its last check in line before,"
        if spell.in_line_before
        else f"all its {name} results so far"
    )
    shown = long_day(spell.shown, language)
    begun = (
        f"It was reported on {shown}."
        if spell.since == spell.shown
        else f"This began with the check reported on {long_day(spell.since, language)} and was plain on {shown}."
    )
    return (
        f"{_broken(spell.rule, limits, _side(spell.z))} {begun} Ask the laboratory; {doubt} carry a doubt until a "
        "check is in line again."
    )


def _broken(rule: CheckRule, limits: CheckLimits, side: str) -> str:
    """Return what a rule found, as a sentence."""
    return {
        CheckRule.ACTION: f"A check lies more than {limits.action:g} sd {side} the assigned value.",
        CheckRule.PAIR: f"Two of three checks lie more than {limits.warning:g} sd {side} the assigned value.",
        CheckRule.DRIFT: f"Check after check adds up to a slow drift {side} the assigned value.",
        CheckRule.ONE_SIDE: f"{limits.one_side} checks in a row lie {side} the assigned value.",
        CheckRule.WARNING: f"A check lies more than {limits.warning:g} sd {side} the assigned value.",
    }[rule]


def _side(z: float) -> str:
    """Return on which side a deviation lies."""
    return "above" if z > 0 else "below"


def _earlier(spells: tuple[OffSpell, ...], language: str) -> str:
    """Return when the laboratory was off before, with a blank in front; empty where it never was."""
    ended = [spell for spell in spells if spell.until]
    if not ended:
        return ""
    last = ended[-1]
    begun = f"reported from {long_day(last.in_line_before, language)}" if last.in_line_before else "reported"
    until = f" until {long_day(last.until, language)}" if last.until else ""
    return f" It was off before: results {begun}{until} carry a doubt."


def summary(charts: tuple[CheckChart, ...], names: Mapping[str, str]) -> Iterator[str]:
    """Yield what matters: who is off for what, who is to be watched, how many stand in line.

    Args:
        charts: all charts.
        names: of laboratories, by id.
    """
    words = {CheckState.OFF: "is off for", CheckState.WATCH: "is to be watched for"}
    for state, said in words.items():
        for laboratory in dict.fromkeys(chart.laboratory for chart in charts):
            codes = dict.fromkeys(
                chart.analysis for chart in charts if (chart.laboratory, chart.state) == (laboratory, state)
            )
            if codes:
                analyses = ", ".join(map(analysis_name, codes))
                todo = " Ask it before its results are believed." if state is CheckState.OFF else ""
                yield f"{names.get(laboratory, laboratory)} {said} {analyses}.{todo}"
    rest = sum(chart.state is CheckState.IN_LINE for chart in charts)
    if rest:
        every = "Every one" if rest == len(charts) else f"{rest}"
        yield f"{every} of {counted(len(charts), 'chart', 'charts')} {'is' if rest in {1, len(charts)} else 'are'} in line."
    untold = sum(chart.state is CheckState.UNTOLD for chart in charts)
    if untold:
        yield f"Of {counted(untold, 'chart', 'charts')} nothing can be told."


def grounds(
    limits: CheckLimits, sources: Mapping[CheckRule, str], left: tuple[tuple[str, str, str], ...]
) -> Iterator[str]:
    """Yield how it is judged, where the rules come from, and what could not be charted.

    Args:
        limits: the figures of the rules.
        sources: of each rule.
        left: laboratory, material and analysis of values without an assigned value.
    """
    yield (
        "Each check is held against the assigned value of its material; 1 sd is the standard deviation of single "
        "values from run to run that the practice gave for it."
    )
    yield (
        f"Off: a check more than {limits.action:g} sd away; two of three in a row more than {limits.warning:g} sd away "
        f"on one side; or a slow drift, where what each check deviates beyond {limits.slack:g} sd adds up to more than "
        f"{limits.drift:g} sd."
    )
    yield (
        f"Watch: one check more than {limits.warning:g} sd away, or {limits.one_side} in a row on one side. In line "
        f"again: the first later check within {limits.back:g} sd; the rules start afresh with it."
    )
    yield (
        "A value below or above what the laboratory reports is told only where the limit itself lies beyond the "
        "warning line."
    )
    for rule, source in sources.items():
        yield f"{_RULES[rule].capitalize()}: {source}."
    for laboratory, material, analysis in left:
        yield f"No chart: {material} has no assigned value of {analysis_name(analysis)}, which {laboratory} reported."
