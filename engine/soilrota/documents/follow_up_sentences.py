"""What came of advice, as sentences: what was spread against what was advised, and what the next result says."""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.documents.advice_sentences import figure_words, input_name, unit_of_need
from soilrota.documents.caution_words import caution_sentence
from soilrota.documents.dates import counted, joined, long_day, number
from soilrota.documents.value_words import began, name_of, result_words, value_words
from soilrota.language import marked, say
from soilrota.model.advice import Input
from soilrota.model.follow_up import Done, FollowUp, Moved, NextResult


def follow_up_sentences(one: FollowUp, zone: str, language: str) -> Iterator[str]:
    """Yield what was advised and spread of one input on a zone, what was not counted, and what the next result says.

    Args:
        one: what came of a need.
        zone: what people call the zone.
        language: of the client.
    """
    need = one.need
    name, unit = input_name(need.input), unit_of_need(need.input)
    amount, low, high, planned, spread = (
        figure_words(figure, need.input, language)
        for figure in (need.amount, need.low, need.high, need.planned, one.spread)
    )
    given = f"{amount} {unit}"
    given = say("{amount} ({low} to {high})", amount=given, low=low, high=high) if low != high else given
    day = long_day(one.advised_on, language)
    if need.planned:
        before = f"{planned} {unit}"
        words = marked("On {day} {zone} was advised {amount} of {input}, on top of {planned} that were planned already")
        said = say(words, day=day, zone=zone, amount=given, input=name, planned=before)
    else:
        said = say("On {day} {zone} was advised {amount} of {input}", day=day, zone=zone, amount=given, input=name)
    products = _products(one, language)
    yield (
        say("{advice}; products for the zone: {products}.", advice=said, products=products) if products else f"{said}."
    )
    yield _done(one, f"{spread} {unit}", language)
    yield from (caution_sentence(caution) for caution in one.cautions)
    if one.next_result is not None:
        yield from _next_result(one.next_result, need.input, is_counted=_is_counted(one), language=language)


#: What was spread, without and with the day until which the log tells.
_DONE = {
    Done.NOTHING: (
        marked("None of it was spread since, by the applications log."),
        marked("None of it was spread since, by the applications log."),
    ),
    Done.LESS: (
        marked("{spread} was spread since: less than the range that was advised."),
        marked("{spread} was spread since by {day}: less than the range that was advised."),
    ),
    Done.WITHIN: (
        marked("{spread} was spread since, which is within what was advised."),
        marked("{spread} was spread since by {day}, which is within what was advised."),
    ),
    Done.MORE: (
        marked("{spread} was spread since: more than the range that was advised."),
        marked("{spread} was spread since by {day}: more than the range that was advised."),
    ),
    Done.NOT_KNOWN: (
        marked("How much was spread since is not known; {spread} can be told from the applications log."),
        marked("How much was spread since is not known; {spread} can be told from the applications log."),
    ),
}


def _done(one: FollowUp, spread: str, language: str) -> str:
    """Return what was spread against what was advised."""
    without_day, with_day = _DONE[one.done]
    if one.spread_until is None:
        return say(without_day, spread=spread)
    return say(with_day, spread=spread, day=long_day(one.spread_until, language))


def _products(one: FollowUp, language: str) -> str:
    """Return the products that were advised for the zone; empty where none was."""
    if not one.rates or one.need.amount <= 0:
        return ""
    rates = [(f"{number(rate.rate_kg_ha, language)} kg/ha", rate.name) for rate in one.rates]
    return joined([say("{rate} of {product}", rate=rate, product=name) for rate, name in rates])


def _is_counted(one: FollowUp) -> bool:
    """Return whether what harvests take off is counted in what was expected."""
    return one.need.test is not None and one.need.test.taken_off is not None


def _next_result(found: NextResult, what: Input, *, is_counted: bool, language: str) -> Iterator[str]:
    """Yield what the next result says."""
    before, after = found.before, found.after
    name = began(name_of(f"{before.analyte}.{before.method}"))
    first_day, last_day = (long_day(result.sampled, language) for result in (before, after))
    if found.verdict is Moved.NOT_COMPARABLE:
        yield say(
            "{name} was next measured on {day}, but not so that it compares with what the advice rests on.",
            name=name,
            day=last_day,
        )
        return
    went = say(
        "{name} went from {first} on {first_day} to {last} on {last_day}",
        name=name, first=result_words(before), first_day=first_day, last=result_words(after), last_day=last_day,
    )  # fmt: skip
    if found.verdict is Moved.CENSORED:
        yield say("{went}; one of them is known only as beyond a limit, so how far it moved cannot be said.", went=went)
        return
    least = value_words(before.analyte, before.method, found.detectable or 0.0, before.unit)
    yield say(
        "{went}; two such values must differ by {amount} before that can be told from chance.", went=went, amount=least
    )
    if found.verdict is Moved.NO_FACTOR:
        yield say("No source that was read says how far it was to be expected to move.")
        return
    yield _expected(found, what, language)
    if not is_counted and found.harvests:
        yield say("What harvests took off is not counted in that, for the cropping plan or the tables lack it.")
    if what is Input.LIME:
        yield say("Lime acts over years; a sampling soon after spreading sees only a part of it.")


def _expected(found: NextResult, what: Input, language: str) -> str:
    """Return how far a result was to be expected to move, and whether it did."""
    before = found.before
    low, high = (
        value_words(before.analyte, before.method, one or 0.0, before.unit)
        for one in (found.expected_low, found.expected_high)
    )
    if found.expected_low == found.expected_high:
        words = marked(
            "By {spread} spread and {harvests} between the two samplings it was to be expected to move by {low}: "
            "{verdict}."
        )
    else:
        words = marked(
            "By {spread} spread and {harvests} between the two samplings it was to be expected to move by between "
            "{low} and {high}: {verdict}."
        )
    return say(
        words,
        spread=f"{figure_words(found.brought, what, language)} {unit_of_need(what)}",
        harvests=counted(found.harvests, "harvest", "harvests"),
        low=low,
        high=high,
        verdict=say(_MOVED[found.verdict]),
    )


_MOVED = {
    Moved.AS_EXPECTED: marked("that is what came, as far as it can be told"),
    Moved.LESS: marked("less than that came"),
    Moved.MORE: marked("more than that came"),
    Moved.TOO_SMALL_TO_TELL: marked("too little to be told from chance, and no more came"),
}
