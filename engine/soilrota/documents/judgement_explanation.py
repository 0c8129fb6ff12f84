"""A judgement traced in text: from what is printed back to the result, its method, the row of the table, its source."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from soilrota.documents.dates import long_day, number
from soilrota.documents.judgement_sentences import (
    began,
    name_of,
    no_quantity_sentence,
    quantity_sentence,
    rating_sentence,
    refused_sentence,
    result_words,
    sampled_words,
    sense_words,
    source_words,
    trend_sentence,
    value_words,
)
from soilrota.model.client import Client, Zone
from soilrota.model.guideline import GuidelineRow, GuidelineSet
from soilrota.model.judgement import Quantity, Rating, Trend, Unrated, ZoneJudgement
from soilrota.model.results import Result

_DECIMALS = 4


def judgement_explanation(
    client: Client, zone: Zone, analyte: str, judged: Sequence[ZoneJudgement], sets: dict[str, GuidelineSet]
) -> tuple[str, ...]:
    """Return the lines that trace every judgement of one analyte or derived quantity of a zone.

    Args:
        client: the client.
        zone: the zone.
        analyte: id of the analyte, its code with the method, or the code of a derived quantity.
        judged: what is judged of the zone, a protocol each.
        sets: guideline sets of the zone by id.

    Returns:
        The lines; none where nothing of that analyte was judged.
    """
    lines: list[str] = []
    for one in judged:
        found = tuple(_lines(client, one, analyte, sets))
        if found:
            protocol = client.protocols[one.protocol].name
            head = f"{zone.name}: {protocol}, last sampled {long_day(one.sampled, client.language)}"
            lines += [*([""] if lines else []), head, *(f"  {line}" for line in found)]
    return tuple(lines)


def analytes_judged(judged: Sequence[ZoneJudgement]) -> tuple[str, ...]:
    """Return the ids that can be asked for, sorted."""
    codes: set[str] = set()
    for zone in judged:
        codes |= {rating.result.analyte for rating in zone.ratings}
        codes |= {unrated.result.analyte for unrated in zone.unrated}
        codes |= {quantity.code for quantity in zone.quantities} | {missing.code for missing in zone.missing}
    return tuple(sorted(codes))


def _lines(client: Client, judged: ZoneJudgement, analyte: str, sets: dict[str, GuidelineSet]) -> Iterator[str]:
    """Yield the lines of one protocol."""
    language = client.language
    for rating in (one for one in judged.ratings if _asked(one.result, analyte)):
        yield from _rating_lines(rating, sets, client)
    for unrated in (one for one in judged.unrated if _asked(one.result, analyte)):
        yield from _unrated_lines(unrated, language)
    for quantity in (one for one in judged.quantities if one.code == analyte):
        yield from _quantity_lines(quantity, language)
    for missing in (one for one in judged.missing if one.code == analyte):
        yield no_quantity_sentence(missing, language)
    for trend in (one for one in judged.trends if analyte in {one.analyte, f"{one.analyte}.{one.method}"}):
        yield from _trend_lines(trend, language)


def _asked(result: Result, analyte: str) -> bool:
    """Return whether a result is of what was asked for."""
    return analyte in {result.analyte, f"{result.analyte}.{result.method}"}


def _rating_lines(rating: Rating, sets: dict[str, GuidelineSet], client: Client) -> Iterator[str]:
    """Yield a judgement and what it rests on."""
    language = client.language
    yield rating_sentence(rating, language)
    yield from _result_lines(rating.result, language)
    row = rating.row
    of_set = sets.get(rating.set)
    whose = " (the practice's own)" if of_set and of_set.is_own else ""
    yield f"  guideline: {of_set.name if of_set else rating.set}{whose}, row {row.id} ({row.place}); {sense_words(row)}"
    yield f"  it holds for: {_conditions(row, language)}"
    for covariate in rating.covariates:
        where = f" ({covariate.result.place})" if covariate.result else ""
        yield f"  it follows: {name_of(covariate.code)} of {number(covariate.value, language, _DECIMALS)}{where}"
    if row.basis:
        yield f"  the line stands for: {row.basis}"
    scale = "on the log scale" if rating.doubt.on_log_scale else f"in {rating.result.unit}"
    parts = f"sampling {rating.doubt.sampling:.3g}, laboratory {rating.doubt.laboratory:.3g}"
    yield f"  how sure: standard deviation {rating.doubt.sd:.3g} {scale} ({parts}); {rating.doubt.source}"
    yield f"  source: {source_words(row)}"
    if row.note:
        yield f"  note: {row.note}"


def _conditions(row: GuidelineRow, language: str) -> str:
    """Return the ground that a row holds for."""
    parts = [f"{row.top_cm:g}–{row.bottom_cm:g} cm"]
    for words, names in (
        ("land under", row.land_uses),
        ("crops", row.crops),
        ("textures", row.textures),
        ("rainfall", row.rainfall_zones),
        ("yield goal", row.goals),
    ):
        if names:
            parts.append(f"{words} {', '.join(names)}")
    for one in row.ranges:
        low = f"from {number(one.low, language, _DECIMALS)}" if one.low is not None else ""
        high = f"below {number(one.high, language, _DECIMALS)}" if one.high is not None else ""
        parts.append(f"{name_of(one.covariate)} {' '.join(filter(None, (low, high)))}")
    return "; ".join(parts)


def _result_lines(result: Result, language: str) -> Iterator[str]:
    """Yield where a result comes from."""
    written = f", as reported {result.as_reported}" if result.as_reported else ""
    yield f"  result: {result_words(result)}, {sampled_words(result, language)}{written} ({result.place})"
    bag = f", bag {result.bag}" if result.bag else ""
    row = f", row {result.origin} of its file" if result.origin else ""
    yield f"  report: {result.report}, issue {result.issue}, of {result.laboratory}{bag}{row}"


def _unrated_lines(unrated: Unrated, language: str) -> Iterator[str]:
    """Yield why a result is not judged, and where it comes from."""
    result = unrated.result
    name = name_of(f"{result.analyte}.{result.method}")
    yield refused_sentence(f"{began(name)} of {result_words(result)}", unrated.refused, language)
    yield from _result_lines(result, language)


def _quantity_lines(quantity: Quantity, language: str) -> Iterator[str]:
    """Yield a quantity, its inputs and its formula's source."""
    yield quantity_sentence(quantity)
    for result in quantity.inputs:
        name = name_of(f"{result.analyte}.{result.method}")
        yield f"  from: {name} {result_words(result)}, {sampled_words(result, language)} ({result.place})"
    for fact, value in sorted(quantity.facts.items()):
        shown = ", ".join(map(str, value)) if isinstance(value, tuple) else value
        text = number(shown, language, _DECIMALS) if isinstance(shown, float) else shown
        yield f"  {fact.replace('_', ' ')}: {text}"
    if quantity.source is not None:
        year = f" ({quantity.source.year})" if quantity.source.year else ""
        where = f", {quantity.source.where}" if quantity.source.where else ""
        yield f"  formula: {quantity.source.author}{year}: {quantity.source.title}{where} [{quantity.status}]"


def _trend_lines(trend: Trend, language: str) -> Iterator[str]:
    """Yield how values moved, and the values."""
    yield f"Over the years, {trend.top_cm:g}–{trend.bottom_cm:g} cm: {trend_sentence(trend, language)}"
    for point in trend.points:
        value = value_words(point.analyte, point.method, point.value, point.unit, point.qualifier)
        yield f"  {long_day(point.sampled, language)}: {value} ({point.place})"
    if trend.slope is not None:
        interval = ""
        if trend.slope_low is not None and trend.slope_high is not None:
            interval = f" ({trend.slope_low:.3g} to {trend.slope_high:.3g})"
        p = f", Mann-Kendall p {trend.p:.2g}" if trend.p is not None else ""
        yield f"  Theil-Sen slope {trend.slope:.3g} a year{interval}{p}"
