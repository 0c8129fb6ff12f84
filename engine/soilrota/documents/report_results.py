"""The results of a zone as rows: value with its interval, what it is held against, what it means, how it moved."""

from __future__ import annotations

from collections.abc import Sequence

from soilrota.documents.dates import digits
from soilrota.documents.judgement_sentences import (
    UNVERIFIED,
    began,
    name_of,
    rating_sentence,
    reason_words,
    result_words,
    source_words,
    trend_sentence,
    value_words,
)
from soilrota.documents.protocols import depth_words
from soilrota.documents.report_chart import Against, ChartPoint, value_chart
from soilrota.documents.report_grounds import FarmGrounds, all_judged
from soilrota.documents.report_intervals import interval_ends, interval_of, interval_words
from soilrota.documents.report_standing import Standing, standing_mark, standing_of, standing_word, standing_words
from soilrota.documents.report_views import ResultView
from soilrota.documents.results_view import against_target, before_words, target_of, target_words
from soilrota.language import marked, say
from soilrota.model.guideline import Sense, Status
from soilrota.model.judgement import Doubt, Rating, Trend, Unrated, ZoneJudgement
from soilrota.model.results import Result, Target
from soilrota.quantities import analysis_name

_DOUBTED = marked("In doubt: see what was found about it below.")


def result_views(grounds: FarmGrounds, judged: ZoneJudgement) -> tuple[ResultView, ...]:
    """Return the rows of a zone under a protocol, layer by layer in the order of the protocol's analyses."""
    asked = [code.partition(".")[0] for code in grounds.client.protocols[judged.protocol].analyses]
    order = {analyte: number for number, analyte in enumerate(dict.fromkeys(asked))}
    both = sorted(
        all_judged(judged),
        key=lambda one: (one.result.top_cm, one.result.bottom_cm, order.get(one.result.analyte, len(order))),
    )
    return tuple(_row(grounds, judged, one) for one in both)


def _row(grounds: FarmGrounds, judged: ZoneJudgement, one: Rating | Unrated) -> ResultView:
    """Return one row."""
    result, language = one.result, grounds.language
    rating = one if isinstance(one, Rating) else None
    doubt = rating.doubt if rating else None
    target = target_of(grounds.client.targets, grounds.zones[judged.zone], result)
    standing = standing_of(rating) if rating else Standing.UNRATED
    trend = _trend_of(judged, result)
    against = _against(rating, target, language)
    name = f"{began(name_of(f'{result.analyte}.{result.method}'))}, "
    name += depth_words(result.top_cm, result.bottom_cm, language)
    points = _points(grounds, judged, result, trend, doubt)
    numbers = [f"[{grounds.cite(source_words(rating.row))}]"] if rating else []
    numbers += [f"[{grounds.cite(target.source)}]"] if target else []
    aimed = f"{against.target_words} ({against_target(result, target)})" if target else ""
    held = "; ".join(filter(None, (against.line_words, aimed.removesuffix(" ()"))))
    return ResultView(
        name=began(name_of(f"{result.analyte}.{result.method}")),
        depth=depth_words(result.top_cm, result.bottom_cm, language),
        value=result_words(result),
        interval=interval_words(result, doubt),
        target=held or (say("no line printed") if rating else ""),
        sources=" ".join(dict.fromkeys(numbers)),
        mark=standing_mark(standing),
        words=_first_up(standing_words(rating) if rating else standing_word(standing)),
        meaning=_meaning(grounds, one),
        chart=value_chart(points, against, name) if _tells(points, against) else "",
        trend=(
            _trend_words(trend, points, language) if result.method != "derived" else say("Reckoned from other values.")
        ),
    )


def _first_up(words: str) -> str:
    """Return words as a line begins with them."""
    return f"{words[:1].upper()}{words[1:]}"


def _tells(points: Sequence[ChartPoint], against: Against) -> bool:
    """Return whether a chart tells more than the number: several values, or one with something to hold it against."""
    return len(points) > 1 or points[0].ends is not None or against.line is not None or bool(against.target_words)


def _trend_words(trend: Trend | None, points: Sequence[ChartPoint], language: str) -> str:
    """Return how values moved; that there is one value alone where nothing was measured before."""
    return trend_sentence(trend, language) if trend and len(points) > 1 else say("The first value.")


def _meaning(grounds: FarmGrounds, one: Rating | Unrated) -> str:
    """Return how sure a standing is, or why there is none; that the value is in doubt stands first."""
    doubted = f"{say(_DOUBTED)} " if grounds.is_doubted(one.result) else ""
    if isinstance(one, Unrated):
        why = reason_words(one.refused, grounds.language)
        return f"{doubted}{_first_up(why)}."
    # The first sentence says what mark, value and line say in their own columns; what follows is how sure it is.
    _, _, sure = rating_sentence(one, grounds.language).partition(". ")
    if one.critical is not None:  # the word stands beside the line already
        sure = sure.removesuffix(say(UNVERIFIED))
    followed = f"{_followed(one)} " if one.covariates else ""
    return f"{doubted}{followed}{sure}".strip()


def _followed(rating: Rating) -> str:
    """Return what a line hangs on."""
    names = {name_of(one.code): digits(f"{one.value:.4g}{_percent(one.code)}") for one in rating.covariates}
    return " ".join(say("The line follows {quantity} of {value}.", quantity=name, value=names[name]) for name in names)


def _percent(code: str) -> str:
    """Return the sign of per cent, where a line hangs on a share."""
    return "%" if code.endswith("-percent") else ""


def _trend_of(judged: ZoneJudgement, result: Result) -> Trend | None:
    """Return the trend that a result belongs to."""
    key = (result.analyte, result.method, result.unit, result.top_cm, result.bottom_cm)
    return next(
        (one for one in judged.trends if (one.analyte, one.method, one.unit, one.top_cm, one.bottom_cm) == key), None
    )


def _against(rating: Rating | None, target: Target | None, language: str) -> Against:
    """Return what a value is held against: the client's target where there is one, else from the line on."""
    line, line_words, label = None, "", ""
    low = high = None
    if rating is not None and rating.critical is not None:
        result, row = rating.result, rating.row
        line = rating.critical
        words = value_words(result.analyte, result.method, line, row.unit)
        label = say("line {value}", value=words)
        line_words = label if row.status is Status.VERIFIED else say("line {value} [unverified]", value=words)
        low = line if row.sense is Sense.SUFFICIENCY else None
        high = row.limit if row.sense is Sense.SUFFICIENCY else line if row.sense is Sense.EXCESS else None
    if target is not None:
        aim = say("target {value}", value=target_words(target, language))
        return Against(target.low, target.high, aim, line, line_words, label)
    return Against(low, high, "", line, line_words, label)


def _points(
    grounds: FarmGrounds, judged: ZoneJudgement, result: Result, trend: Trend | None, doubt: Doubt | None
) -> tuple[ChartPoint, ...]:
    """Return the values of the chart: those that compare, and those of the same zone that do not."""
    compared = trend.points if trend and trend.points else (result,)
    same = {id(one) for one in compared}
    others = [
        one
        for one in grounds.client.results
        if (one.farm, one.zone, one.protocol, one.analyte)
        == (judged.farm, judged.zone, judged.protocol, result.analyte)
        and one.top_cm < result.bottom_cm
        and one.bottom_cm > result.top_cm
        and one.sampled < min(point.sampled for point in compared)
        and id(one) not in same
    ]
    points = [
        ChartPoint(
            one.sampled,
            one.value,
            interval_of(one, doubt),
            result_words(one),
            one.qualifier,
            interval_ends(one, doubt),
        )
        for one in compared
    ]
    points += [
        ChartPoint(
            one.sampled, one.value, None, result_words(one), one.qualifier, why_not=_why_not(grounds, one, result)
        )
        for one in others
    ]
    return tuple(sorted(points, key=lambda one: one.day))


def _why_not(grounds: FarmGrounds, one: Result, last: Result) -> str:
    """Return why an earlier value does not compare with the last one."""
    if one.method != last.method:
        return analysis_name(f"{one.analyte}.{one.method}")
    if (one.top_cm, one.bottom_cm) != (last.top_cm, last.bottom_cm):
        return say("layer {depth}", depth=depth_words(one.top_cm, one.bottom_cm, grounds.language))
    change = next((each for each in grounds.zones[last.zone].follows if one.sampled < each.since), None)
    if change is not None:
        return before_words(change, grounds.language)
    return say("another season")
