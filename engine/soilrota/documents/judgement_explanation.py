"""A judgement traced in text: from what is printed back to the result, its method, the row of the table, its source."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from soilrota.documents.dates import digits, long_day, number
from soilrota.documents.judgement_sentences import (
    covariate_words,
    layer_words,
    quantity_sentence,
    rating_sentence,
    sampled_words,
    sense_words,
    source_words,
    trend_sentence,
)
from soilrota.documents.refusal_sentences import no_quantity_sentence, refused_sentence
from soilrota.documents.value_words import began, name_of, result_words, value_words
from soilrota.guidelines.cited import said_source
from soilrota.language import marked, marked_as, say, say_as
from soilrota.model.client import Client, Zone
from soilrota.model.guideline import GuidelineRow, GuidelineSet, Status
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
            head = say(
                "{zone}: {protocol}, last sampled {day}",
                zone=zone.name,
                protocol=client.protocols[one.protocol].name,
                day=long_day(one.sampled, client.language),
            )
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
    yield f"  {_guideline(rating, sets)}; {sense_words(row)}"
    yield "  " + say("it holds for: {ground}", ground=_conditions(row, language))
    for covariate in rating.covariates:
        where = f" ({covariate.result.place})" if covariate.result else ""
        yield "  " + say("it follows: {covariate}", covariate=covariate_words(covariate, language)) + where
    if row.basis:
        yield "  " + say("the line stands for: {basis}", basis=say(row.basis))
    yield f"  {_doubt(rating)}; {rating.doubt.source}"
    yield f"  {say(_SOURCE, source=source_words(row))}"
    if row.note:
        yield "  " + say("note: {note}", note=say(row.note))


_SOURCE = marked("source: {source}")


def _guideline(rating: Rating, sets: dict[str, GuidelineSet]) -> str:
    """Return the guideline of a judgement, and its row."""
    of_set, row = sets.get(rating.set), rating.row
    if of_set is None or not of_set.is_own:
        words, name = marked("guideline: {name}, row {row} ({place})"), say(of_set.name) if of_set else rating.set
    else:
        words, name = marked("guideline: {name} (the practice's own), row {row} ({place})"), of_set.name
    return say(words, name=name, row=row.id, place=row.place)


def _doubt(rating: Rating) -> str:
    """Return how sure a value is, and of what parts that is made."""
    doubt = rating.doubt
    sd, sampling, laboratory = (digits(f"{one:.3g}") for one in (doubt.sd, doubt.sampling, doubt.laboratory))
    if doubt.on_log_scale:
        words = marked(
            "how sure: standard deviation {sd} on the log scale (sampling {sampling}, laboratory {laboratory})"
        )
    else:
        words = marked("how sure: standard deviation {sd} in {unit} (sampling {sampling}, laboratory {laboratory})")
    return say(words, sd=sd, unit=rating.result.unit, sampling=sampling, laboratory=laboratory)


#: Ground that a row holds for; the ids are those of its table.
_GROUND: tuple[tuple[str, Callable[[GuidelineRow], Sequence[str]]], ...] = (
    (marked_as("row", "land under {names}"), lambda row: row.land_uses),
    (marked_as("row", "crops {names}"), lambda row: row.crops),
    (marked_as("row", "textures {names}"), lambda row: row.textures),
    (marked_as("row", "rainfall {names}"), lambda row: row.rainfall_zones),
    (marked_as("row", "yield goal {names}"), lambda row: row.goals),
)


def _conditions(row: GuidelineRow, language: str) -> str:
    """Return the ground that a row holds for."""
    parts = [layer_words(row.top_cm, row.bottom_cm)]
    parts += [say_as("row", words, names=", ".join(names(row))) for words, names in _GROUND if names(row)]
    for one in row.ranges:
        ends = _ENDS[one.low is not None, one.high is not None]
        low, high = ("" if end is None else number(end, language, _DECIMALS) for end in (one.low, one.high))
        parts.append(say_as("row", ends, covariate=name_of(one.covariate), low=low, high=high))
    return "; ".join(parts)


#: A covariate between two ends, by which of them are there.
_ENDS = {
    (True, True): marked_as("row", "{covariate} from {low} below {high}"),
    (True, False): marked_as("row", "{covariate} from {low}"),
    (False, True): marked_as("row", "{covariate} below {high}"),
    (False, False): "{covariate} ",
}


def _result_lines(result: Result, language: str) -> Iterator[str]:
    """Yield where a result comes from."""
    value, sampled = result_words(result), sampled_words(result, language)
    if result.as_reported:
        words = marked("result: {value}, {sampled}, as reported {reported} ({place})")
    else:
        words = marked("result: {value}, {sampled} ({place})")
    yield "  " + say(words, value=value, sampled=sampled, reported=result.as_reported, place=result.place)
    parts = [
        say(
            "report: {report}, issue {issue}, of {laboratory}",
            report=result.report, issue=result.issue, laboratory=result.laboratory,
        )
    ]  # fmt: skip
    parts += [say("bag {bag}", bag=result.bag)] if result.bag else []
    parts += [say("row {row} of its file", row=result.origin)] if result.origin else []
    yield f"  {', '.join(parts)}"


def _unrated_lines(unrated: Unrated, language: str) -> Iterator[str]:
    """Yield why a result is not judged, and where it comes from."""
    result = unrated.result
    name = began(name_of(f"{result.analyte}.{result.method}"))
    value = say_as("value", "{name} of {value}", name=name, value=result_words(result))
    yield refused_sentence(value, unrated.refused, language)
    yield from _result_lines(result, language)


def _quantity_lines(quantity: Quantity, language: str) -> Iterator[str]:
    """Yield a quantity, its inputs and its formula's source; the figures of its working by their own names."""
    yield quantity_sentence(quantity)
    for result in quantity.inputs:
        yield "  " + say(
            "from: {name} {value}, {sampled} ({place})",
            name=name_of(f"{result.analyte}.{result.method}"),
            value=result_words(result),
            sampled=sampled_words(result, language),
            place=result.place,
        )
    for fact, value in sorted(quantity.facts.items()):
        shown = ", ".join(map(str, value)) if isinstance(value, tuple) else value
        text = number(shown, language, _DECIMALS) if isinstance(shown, float) else shown
        yield f"  {fact.replace('_', ' ')}: {text}"
    if quantity.source is not None:
        source = said_source(quantity.source)
        year = f" ({source.year})" if source.year else ""
        where = f", {source.where}" if source.where else ""
        cited = f"{source.author}{year}: {source.title}{where}"
        status = say(_STATUSES[quantity.status])
        yield "  " + say("formula: {source} [{status}]", source=cited, status=status)


_STATUSES = {Status.VERIFIED: marked("verified"), Status.UNVERIFIED: marked("unverified")}


def _trend_lines(trend: Trend, language: str) -> Iterator[str]:
    """Yield how values moved, and the values."""
    layer = layer_words(trend.top_cm, trend.bottom_cm)
    yield say("Over the years, {layer}: {trend}", layer=layer, trend=trend_sentence(trend, language))
    for point in trend.points:
        value = value_words(point.analyte, point.method, point.value, point.unit, point.qualifier)
        yield f"  {long_day(point.sampled, language)}: {value} ({point.place})"
    if trend.slope is not None:
        said = say("Theil-Sen slope {slope} a year", slope=digits(f"{trend.slope:.3g}"))
        if trend.slope_low is not None and trend.slope_high is not None:
            low, high = (digits(f"{one:.3g}") for one in (trend.slope_low, trend.slope_high))
            said = say("{slope} ({low} to {high})", slope=said, low=low, high=high)
        if trend.p is not None:
            said = say("{slope}, Mann-Kendall p {p}", slope=said, p=digits(f"{trend.p:.2g}"))
        yield f"  {said}"
