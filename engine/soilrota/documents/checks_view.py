"""Blind check samples as the practice reads them: how its laboratories stand, a chart for each analysis."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from babel.dates import format_skeleton

from soilrota.documents.check_chart import chart_key, check_chart, state_mark
from soilrota.documents.check_words import as_reported, grounds, off_by, standing, state_word, summary, with_unit
from soilrota.documents.dates import counted, locale_of
from soilrota.documents.views import CheckBlock, CheckedLaboratory, CheckLine, CheckRow, ChecksView
from soilrota.language import say, say_count, speaking, spoken
from soilrota.model.check_charts import CheckChart, CheckLimits, CheckPoint, CheckRule, CheckState
from soilrota.model.practice import Practice
from soilrota.quantities import analysis_name

#: So many of the last checks stand on a chart and beside it.
MOST_POINTS = 40
_COLUMNS = 2
_WORST_FIRST = (CheckState.OFF, CheckState.WATCH, CheckState.UNTOLD, CheckState.IN_LINE)


def checks_view(
    charts: Sequence[CheckChart],
    practice: Practice,
    limits: CheckLimits,
    sources: Mapping[CheckRule, str],
    left: tuple[tuple[str, str, str], ...] = (),
) -> ChecksView:
    """Return everything that the document of laboratory checks shows, in the practice's language.

    Args:
        charts: at least one.
        practice: whose check samples they are.
        limits: the figures of the rules by which the charts were made.
        sources: of each rule.
        left: laboratory, material and analysis code of values that could not be charted.
    """
    with speaking(practice.language):
        return _view(charts, practice, limits, sources, left)


def _view(
    charts: Sequence[CheckChart],
    practice: Practice,
    limits: CheckLimits,
    sources: Mapping[CheckRule, str],
    left: tuple[tuple[str, str, str], ...],
) -> ChecksView:
    """Return the view in the language that is spoken."""
    ordered = tuple(sorted(charts, key=lambda chart: _WORST_FIRST.index(chart.state)))
    names = {laboratory.id: laboratory.name for laboratory in practice.laboratories.values()}
    uncharted = [(names.get(one, one), _material(material, practice), code) for one, material, code in left]
    return ChecksView(
        title=say("Laboratory checks"),
        practice=practice.name,
        contact=practice.contact,
        logo=practice.logo,
        colours=practice.colours,
        language=spoken(),
        summary=tuple(summary(ordered, names)),
        lines=tuple(_line(chart, practice, names) for chart in ordered),
        key=chart_key(),
        laboratories=tuple(_laboratories(ordered, practice, limits, names)),
        grounds=tuple(grounds(limits, sources, tuple(uncharted))),
    )


def _material(known: str, practice: Practice) -> str:
    """Return what people call a material; its id where the practice's file has it no more."""
    material = practice.check_materials.get(known)
    return material.name if material else known


def _line(chart: CheckChart, practice: Practice, names: Mapping[str, str]) -> CheckLine:
    """Return how a laboratory stands, on one line."""
    last = chart.points[-1]
    how_far = off_by(last)
    return CheckLine(
        laboratory=names.get(chart.laboratory, chart.laboratory),
        analysis=analysis_name(chart.analysis),
        material=_material(chart.material, practice),
        mark=state_mark(chart.state),
        state=state_word(chart.state),
        checks=counted(len(chart.points), "check", "checks"),
        last=f"{_day(last)}: {with_unit(as_reported(last, chart.sd), chart.unit)}"
        + (f", {how_far}" if how_far else ""),
    )


def _day(point: CheckPoint) -> str:
    """Return the day of a check, short."""
    return str(format_skeleton("yMMMd", point.day, locale=locale_of(spoken())))


def _laboratories(
    charts: Sequence[CheckChart], practice: Practice, limits: CheckLimits, names: Mapping[str, str]
) -> Iterator[CheckedLaboratory]:
    """Yield the laboratories with their charts, the worst first."""
    for laboratory in dict.fromkeys(chart.laboratory for chart in charts):
        name = names.get(laboratory, laboratory)
        own = [chart for chart in charts if chart.laboratory == laboratory]
        yield CheckedLaboratory(name, tuple(_block(chart, practice, limits, name) for chart in own))


def _block(chart: CheckChart, practice: Practice, limits: CheckLimits, laboratory: str) -> CheckBlock:
    """Return one chart with its words and values."""
    points = chart.points[-MOST_POINTS:]
    heading = f"{analysis_name(chart.analysis)}: {_material(chart.material, practice)}"
    left_out = len(chart.points) - len(points)
    earlier = say_count(
        "{count} earlier check stands in records/check_samples.",
        "{count} earlier checks stand in records/check_samples.",
        left_out,
    )
    return CheckBlock(
        heading=heading,
        mark=state_mark(chart.state),
        tone=chart.state.name.lower().replace("_", "-"),
        state=state_word(chart.state),
        sentence=standing(chart, limits, spoken()),
        picture=check_chart(chart, points, limits, f"{heading}, {laboratory}", spoken()),
        columns=tuple(_columns([_row(point, chart) for point in points])),
        left_out=earlier if left_out else "",
    )


def _row(point: CheckPoint, chart: CheckChart) -> CheckRow:
    """Return one check as a row."""
    return CheckRow(
        day=_day(point),
        bag=point.bag,
        value=with_unit(as_reported(point, chart.sd), chart.unit),
        off_by=off_by(point),
        mark=state_mark(point.state),
        state=state_word(point.state),
    )


def _columns(rows: Sequence[CheckRow]) -> Iterator[tuple[CheckRow, ...]]:
    """Yield the rows in columns, read down the first and then down the next."""
    tall = -(-len(rows) // _COLUMNS)
    for start in range(0, len(rows), tall):
        yield tuple(rows[start : start + tall])
