"""Check samples in words: how a laboratory stands, by which rule, and what to do."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from math import floor, log10

from babel.numbers import format_decimal

from soilrota.documents import dates
from soilrota.documents.dates import counted, digits, locale_of, long_day
from soilrota.language import marked, marked_as, said_again, say, say_as, say_count, spoken
from soilrota.model.check_charts import CheckChart, CheckLimits, CheckPoint, CheckRule, CheckState, OffSpell
from soilrota.quantities import analysis_name

#: What stands on papers for a state.
STATES = {
    CheckState.OFF: marked_as("check", "Off"),
    CheckState.WATCH: marked_as("check", "Watch"),
    CheckState.IN_LINE: marked_as("check", "In line"),
    CheckState.UNTOLD: marked_as("check", "Cannot tell"),
}
_RULES = {
    CheckRule.ACTION: marked("Rule of the action line: {source}."),
    CheckRule.PAIR: marked("Rule of two in three: {source}."),
    CheckRule.DRIFT: marked("Rule of the slow drift: {source}."),
    CheckRule.ONE_SIDE: marked("Rule of one side: {source}."),
    CheckRule.WARNING: marked("Rule of the warning line: {source}."),
}
#: What a rule found above and below the assigned value; `limit` is the rule's own figure.
_FOUND = {
    CheckRule.ACTION: (
        marked("A check lies more than {limit} sd above the assigned value."),
        marked("A check lies more than {limit} sd below the assigned value."),
    ),
    CheckRule.PAIR: (
        marked("Two of three checks lie more than {limit} sd above the assigned value."),
        marked("Two of three checks lie more than {limit} sd below the assigned value."),
    ),
    CheckRule.DRIFT: (
        marked("Check after check adds up to a slow drift above the assigned value."),
        marked("Check after check adds up to a slow drift below the assigned value."),
    ),
    CheckRule.ONE_SIDE: (
        marked("{limit} checks in a row lie above the assigned value."),
        marked("{limit} checks in a row lie below the assigned value."),
    ),
}
_FOUND[CheckRule.WARNING] = _FOUND[CheckRule.ACTION]


def state_word(state: CheckState) -> str:
    """Return a state in a word or two."""
    return say_as("check", STATES[state])


def figure_of(value: float, sd: float) -> str:
    """Return a value with as many decimals as its standard deviation makes sensible.

    >>> figure_of(38.3, 2.1), figure_of(5.64, 0.08), figure_of(0.156, 0.012), figure_of(1200, 40)
    ('38.3', '5.64', '0.156', '1,200')
    """
    return _written(Decimal(f"{value:.{_decimals(sd)}f}"))


def _decimals(sd: float) -> int:
    """Return how many decimals a standard deviation makes sensible [-]."""
    return max(0, -floor(log10(sd / 3)))


def _written(value: Decimal) -> str:
    """Return a number with just its own decimals, as the language that is spoken writes it."""
    decimals = _own_decimals(value)
    pattern = "#,##0." + "0" * decimals if decimals else "#,##0"
    return str(format_decimal(value, format=pattern, locale=locale_of(spoken())))


def _own_decimals(value: Decimal) -> int:
    """Return how many decimals a number is written with [-]."""
    return max(0, -int(value.as_tuple().exponent))


def as_reported(point: CheckPoint, sd: float) -> str:
    """Return the reported figure, with noughts so that figures of one chart have the same decimals; a limit as it is.

    >>> from dataclasses import replace
    >>> from datetime import date
    >>> point = CheckPoint(date(2026, 1, 1), "", "", "", 0.2, None, CheckState.UNTOLD, None)
    >>> as_reported(point, 0.012), as_reported(point, 20), as_reported(replace(point, qualifier="<"), 0.012)
    ('0.200', '0.2', '<0.2')
    """
    exact = Decimal(f"{point.value:.10g}")
    is_exact = bool(point.qualifier) or _own_decimals(exact) > _decimals(sd)
    return f"{point.qualifier}{_written(exact) if is_exact else figure_of(point.value, sd)}"


def with_unit(figure: str, unit: str) -> str:
    """Return a figure with its unit; pH and indices have none.

    >>> with_unit("5.4", "pH"), with_unit("32", "mg/kg")
    ('5.4', '32 mg/kg')
    """
    return dates.with_unit(figure, "" if unit in {"pH", "index"} else unit)


def off_by(point: CheckPoint) -> str:
    """Return how far a check lies off, in standard deviations and words; empty where that cannot be told.

    >>> from datetime import date
    >>> off_by(CheckPoint(date(2026, 1, 1), "", "", "", 36.6, 2.19, CheckState.WATCH, None))
    '2.2 sd above'
    """
    if point.z is None:
        return ""
    if _is_on_line(point.z):
        return say("on the line")
    distance = _distance(point, point.z)
    return (
        say("{distance} sd above", distance=distance) if point.z > 0 else say("{distance} sd below", distance=distance)
    )


def _is_on_line(z: float) -> bool:
    """Return whether a deviation is nought as it is printed."""
    return not round(z, 1)


def _distance(point: CheckPoint, z: float) -> str:
    """Return how many standard deviations a check lies off, as far as that is known."""
    distance = digits(f"{abs(z):.1f}")
    return say("at least {value}", value=distance) if point.qualifier else distance


def standing(chart: CheckChart, limits: CheckLimits, language: str) -> str:
    """Return how a laboratory stands for one analysis and what to do, in a sentence or two."""
    if chart.state is CheckState.UNTOLD:
        return say(
            "Every value lies outside what the laboratory reports, so nothing can be told. Ask the laboratory for "
            "wider limits, or send a material that lies within them."
        )
    if chart.state is CheckState.OFF:
        return _off(chart, limits, language)
    last, z = next((point, point.z) for point in reversed(chart.points) if point.z is not None)
    said = _last_check(last, z, language)
    if chart.state is CheckState.WATCH and chart.rule:
        todo = say("Results are used as they are; send another check sample soon.")
        return f"{_broken(chart.rule, limits, z)} {said} {todo}"
    return " ".join(filter(None, (said, say("Nothing to do."), _earlier(chart.spells, language))))


def _last_check(point: CheckPoint, z: float, language: str) -> str:
    """Return where the last check lies."""
    day = long_day(point.day, language)
    if _is_on_line(z):
        return say("The last check, reported on {day}, lies on the assigned value.", day=day)
    distance = _distance(point, z)
    if z > 0:
        return say(
            "The last check, reported on {day}, lies {distance} sd above the assigned value.",
            day=day,
            distance=distance,
        )
    return say(
        "The last check, reported on {day}, lies {distance} sd below the assigned value.", day=day, distance=distance
    )


def _off(chart: CheckChart, limits: CheckLimits, language: str) -> str:
    """Return that a laboratory is off, since when, by which rule, and what that means for results."""
    spell = chart.spells[-1]
    name, shown = analysis_name(chart.analysis), long_day(spell.shown, language)
    if spell.since == spell.shown:
        begun = say("It was reported on {day}.", day=shown)
    else:
        begun = say(
            "This began with the check reported on {first} and was plain on {day}.",
            first=long_day(spell.since, language),
            day=shown,
        )
    if spell.in_line_before:
        doubt = say(
            "Ask the laboratory; {analysis} results reported since {day}, its last check in line before, carry a doubt "
            "until a check is in line again.",
            analysis=name,
            day=long_day(spell.in_line_before, language),
        )
    else:
        doubt = say(
            "Ask the laboratory; all its {analysis} results so far carry a doubt until a check is in line again.",
            analysis=name,
        )
    return f"{_broken(spell.rule, limits, spell.z)} {begun} {doubt}"


def _broken(rule: CheckRule, limits: CheckLimits, z: float) -> str:
    """Return what a rule found, as a sentence."""
    limit = {CheckRule.ACTION: limits.action, CheckRule.ONE_SIDE: limits.one_side}.get(rule, limits.warning)
    above, below = _FOUND[rule]
    return say(above if z > 0 else below, limit=_figure(limit))


def _figure(limit: float) -> str:
    """Return a figure of the rules."""
    return digits(f"{limit:g}")


def _earlier(spells: tuple[OffSpell, ...], language: str) -> str:
    """Return when the laboratory was off before; empty where it never was."""
    ended = [(spell.in_line_before, spell.until) for spell in spells if spell.until]
    if not ended:
        return ""
    first, until = ended[-1]
    last = long_day(until, language)
    if first is None:
        return say("It was off before: results reported until {last} carry a doubt.", last=last)
    return say(
        "It was off before: results reported from {first} until {last} carry a doubt.",
        first=long_day(first, language),
        last=last,
    )


def summary(charts: tuple[CheckChart, ...], names: Mapping[str, str]) -> Iterator[str]:
    """Yield what matters: who is off for what, who is to be watched, how many stand in line.

    Args:
        charts: all charts.
        names: of laboratories, by id.
    """
    for state in (CheckState.OFF, CheckState.WATCH):
        for laboratory in dict.fromkeys(chart.laboratory for chart in charts):
            codes = dict.fromkeys(
                chart.analysis for chart in charts if (chart.laboratory, chart.state) == (laboratory, state)
            )
            if codes:
                yield _stands(state, names.get(laboratory, laboratory), ", ".join(map(analysis_name, codes)))
    rest = sum(chart.state is CheckState.IN_LINE for chart in charts)
    if rest == len(charts):
        yield say_count("Every one of {count} chart is in line.", "Every one of {count} charts is in line.", rest)
    elif rest:
        yield say_count(
            "{count} of {charts} is in line.",
            "{count} of {charts} are in line.",
            rest,
            charts=counted(len(charts), "chart", "charts"),
        )
    untold = sum(chart.state is CheckState.UNTOLD for chart in charts)
    if untold:
        yield say_count("Of {count} chart nothing can be told.", "Of {count} charts nothing can be told.", untold)


def _stands(state: CheckState, laboratory: str, analyses: str) -> str:
    """Return for which analyses a laboratory is off or to be watched."""
    if state is CheckState.OFF:
        return say(
            "{laboratory} is off for {analyses}. Ask it before its results are believed.",
            laboratory=laboratory,
            analyses=analyses,
        )
    return say("{laboratory} is to be watched for {analyses}.", laboratory=laboratory, analyses=analyses)


def grounds(
    limits: CheckLimits, sources: Mapping[CheckRule, str], left: tuple[tuple[str, str, str], ...]
) -> Iterator[str]:
    """Yield how it is judged, where the rules come from, and what could not be charted.

    Args:
        limits: the figures of the rules.
        sources: of each rule.
        left: laboratory, material and analysis of values without an assigned value.
    """
    yield say(
        "Each check is held against the assigned value of its material; 1 sd is the standard deviation of single "
        "values from run to run that the practice gave for it."
    )
    yield say(
        "Off: a check more than {action} sd away; two of three in a row more than {warning} sd away on one side; or a "
        "slow drift, where what each check deviates beyond {slack} sd adds up to more than {drift} sd.",
        action=_figure(limits.action),
        warning=_figure(limits.warning),
        slack=_figure(limits.slack),
        drift=_figure(limits.drift),
    )
    yield say(
        "Watch: one check more than {warning} sd away, or {one_side} in a row on one side. In line again: the first "
        "later check within {back} sd; the rules start afresh with it.",
        warning=_figure(limits.warning),
        one_side=limits.one_side,
        back=_figure(limits.back),
    )
    yield say(
        "A value below or above what the laboratory reports is told only where the limit itself lies beyond the "
        "warning line."
    )
    for rule, source in sources.items():
        yield say(_RULES[rule], source=said_again(source))
    for laboratory, material, analysis in left:
        yield say(
            "No chart: {material} has no assigned value of {analysis}, which {laboratory} reported.",
            material=material,
            analysis=analysis_name(analysis),
            laboratory=laboratory,
        )
