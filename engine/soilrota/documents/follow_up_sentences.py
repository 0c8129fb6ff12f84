"""What came of advice, as sentences: what was spread against what was advised, and what the next result says."""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.documents.advice_sentences import figure_words, input_name, unit_of_need
from soilrota.documents.caution_words import caution_sentence
from soilrota.documents.dates import counted, joined, long_day, number
from soilrota.documents.judgement_sentences import began, name_of, result_words, value_words
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
    ranged = f" ({low} to {high})" if low != high else ""
    on_top = f", on top of {planned} {unit} that were planned already" if need.planned else ""
    day = long_day(one.advised_on, language)
    yield f"On {day} {zone} was advised {amount} {unit}{ranged} of {name}{on_top}{_products(one, language)}."
    until = f" by {long_day(one.spread_until, language)}" if one.spread_until else ""
    yield _DONE[one.done].format(spread=f"{spread} {unit}", until=until)
    yield from (caution_sentence(caution) for caution in one.cautions)
    if one.next_result is not None:
        yield from _next_result(one.next_result, need.input, is_counted=_is_counted(one), language=language)


_DONE = {
    Done.NOTHING: "None of it was spread since, by the applications log.",
    Done.LESS: "{spread} was spread since{until}: less than the range that was advised.",
    Done.WITHIN: "{spread} was spread since{until}, which is within what was advised.",
    Done.MORE: "{spread} was spread since{until}: more than the range that was advised.",
    Done.NOT_KNOWN: "How much was spread since is not known; {spread} can be told from the applications log.",
}


def _products(one: FollowUp, language: str) -> str:
    """Return the products that were advised for the zone; empty where none was."""
    if not one.rates or one.need.amount <= 0:
        return ""
    said = joined([f"{number(rate.rate_kg_ha, language)} kg/ha of {rate.name}" for rate in one.rates])
    return f"; products for the zone: {said}"


def _is_counted(one: FollowUp) -> bool:
    """Return whether what harvests take off is counted in what was expected."""
    return one.need.test is not None and one.need.test.taken_off is not None


def _next_result(found: NextResult, what: Input, *, is_counted: bool, language: str) -> Iterator[str]:
    """Yield what the next result says."""
    before, after = found.before, found.after
    name = began(name_of(f"{before.analyte}.{before.method}"))
    first, last = (f"{result_words(one)} on {long_day(one.sampled, language)}" for one in (before, after))
    went = f"{name} went from {first} to {last}"
    if found.verdict is Moved.NOT_COMPARABLE:
        day = long_day(after.sampled, language)
        yield f"{name} was next measured on {day}, but not so that it compares with what the advice rests on."
        return
    if found.verdict is Moved.CENSORED:
        yield f"{went}; one of them is known only as beyond a limit, so how far it moved cannot be said."
        return

    def figure(value: float | None) -> str:
        return value_words(before.analyte, before.method, value or 0.0, before.unit)

    yield f"{went}; two such values must differ by {figure(found.detectable)} before that can be told from chance."
    if found.verdict is Moved.NO_FACTOR:
        yield "No source that was read says how far it was to be expected to move."
        return
    brought = f"{figure_words(found.brought, what, language)} {unit_of_need(what)}"
    by = f"{brought} spread and {counted(found.harvests, 'harvest', 'harvests')} between the two samplings"
    expected = figure(found.expected_low)
    if found.expected_low != found.expected_high:
        expected = f"between {expected} and {figure(found.expected_high)}"
    yield f"By {by} it was to be expected to move by {expected}: {_MOVED[found.verdict]}."
    if not is_counted and found.harvests:
        yield "What harvests took off is not counted in that, for the cropping plan or the tables lack it."
    if what is Input.LIME:
        yield "Lime acts over years; a sampling soon after spreading sees only a part of it."


_MOVED = {
    Moved.AS_EXPECTED: "that is what came, as far as it can be told",
    Moved.LESS: "less than that came",
    Moved.MORE: "more than that came",
    Moved.TOO_SMALL_TO_TELL: "too little to be told from chance, and no more came",
}
