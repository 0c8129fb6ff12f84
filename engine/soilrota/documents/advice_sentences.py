"""Advice as sentences for farmers and advisers: needs with their range, steps, maxima, why nothing can be advised.

What stands of products, order and sampling is in `action_sentences`. Figures that were not read in their source carry
the word `unverified` wherever they are used.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from soilrota.documents.advice_facts import fact_words
from soilrota.documents.dates import counted, joined, long_day, number, span_words
from soilrota.documents.judgement_sentences import UNVERIFIED, unverified_words
from soilrota.documents.refusal_sentences import reason_words
from soilrota.documents.step_words import cap_rule_words, step_rule_words
from soilrota.documents.value_words import began, name_of
from soilrota.guidelines.cited import said_source
from soilrota.language import marked, say, say_count
from soilrota.model.advice import Cap, Closing, Input, Need, NoNeed, Step
from soilrota.model.findings import Fact
from soilrota.model.guideline import Source, Status
from soilrota.model.judgement import Refused, WhyNot
from soilrota.model.windows import Span

_TONNES = frozenset({Input.LIME, Input.GYPSUM})
_INPUTS = {
    Input.NITROGEN: marked("nitrogen"),
    Input.PHOSPHORUS: marked("phosphorus"),
    Input.POTASSIUM: marked("potassium"),
    Input.SULPHUR: marked("sulphur"),
    Input.MAGNESIUM: marked("magnesium"),
    Input.LIME: marked("lime (pure calcium carbonate)"),
    Input.GYPSUM: marked("gypsum (pure)"),
}
#: Below so many kilograms a tenth is worth saying.
_SMALL = 10


def input_name(what: Input) -> str:
    """Return what an input is called, in a sentence."""
    return say(_INPUTS[what])


def unit_of_need(what: Input) -> str:
    """Return the unit of an input's needs."""
    return "t/ha" if what in _TONNES else "kg/ha"


def figure_words(amount: float, what: Input, language: str) -> str:
    """Return an amount of an input without its unit: to a tenth; kilograms from ten on whole.

    >>> figure_words(2.46, Input.LIME, "en-AU"), figure_words(18.4, Input.PHOSPHORUS, "en-AU")
    ('2.5', '18')
    """
    return number(amount, language, 0 if what not in _TONNES and abs(amount) >= _SMALL else 1)


def working_words(amount: float, what: Input, language: str) -> str:
    """Return an amount as workings have it, so that printed steps add up: kilograms to a hundredth, tonnes finer.

    >>> working_words(-2.25, Input.PHOSPHORUS, "en-AU"), working_words(1.4494, Input.LIME, "en-AU")
    ('-2.25 kg/ha', '1.449 t/ha')
    """
    return f"{number(amount, language, 3 if what in _TONNES else 2)} {unit_of_need(what)}"


def amount_words(need: Need, language: str) -> str:
    """Return an amount with its unit, and its range where that is more than the amount itself."""
    low, value, high = (figure_words(one, need.input, language) for one in (need.low, need.amount, need.high))
    amount = f"{value} {unit_of_need(need.input)}"
    if low == value == high:
        return amount
    return say("{amount} ({low} to {high})", amount=amount, low=low, high=high)


def need_sentence(need: Need, zone: str, language: str) -> str:
    """Return how much of an input a zone needs, how sure that is, and in how many dressings.

    Args:
        need: the need.
        zone: what people call the zone.
        language: of the client.
    """
    name, unit = input_name(need.input), unit_of_need(need.input)
    low, value, high = (figure_words(one, need.input, language) for one in (need.low, need.amount, need.high))
    most = f"{high} {unit}"
    if need.amount <= 0:
        said = [say("{zone} needs no {input}.", zone=zone, input=name)]
        if need.high > 0:
            said.append(say("By the doubt in its results it may be up to {most}.", most=most))
        return " ".join([*said, *_unverified(need)])
    amount = f"{value} {unit}"
    if low == high:
        said = [say("{zone} needs {amount} of {input}.", zone=zone, amount=amount, input=name)]
    else:
        words = marked("{zone} needs {amount} of {input}; by the doubt in its results it may be {low} to {most}.")
        said = [say(words, zone=zone, amount=amount, input=name, low=low, most=most)]
    if need.split:
        each = f"{figure_words(need.split[0], need.input, language)} {unit}"
        dressings = counted(len(need.split), "dressing", "dressings")
        said.append(say("Spread it in {dressings} of {amount}.", dressings=dressings, amount=each))
    return " ".join([*said, *_unverified(need)])


def step_words(step: Step, language: str) -> str:
    """Return what a step of a working is, without its amount."""
    return step_rule_words(step.rule, step.facts, language)


def step_sentence(step: Step, what: Input, language: str) -> str:
    """Return a step of a working with its amount, signed as it adds or takes off."""
    sign = "+" if step.amount > 0 else ""
    amount = f"{sign}{working_words(step.amount, what, language)}"
    return f"{step_words(step, language)}: {amount}.{_word(step.status)}"


def cap_sentence(cap: Cap, what: Input, language: str) -> str:
    """Return a maximum that was looked at, and why it is one."""
    amount = f"{figure_words(cap.amount, what, language)} {unit_of_need(what)}"
    said = say(
        "Never more than {amount}: {reason}.", amount=amount, reason=cap_rule_words(cap.rule, cap.facts, language)
    )
    return f"{said}{_word(cap.status)}"


def no_need_sentence(missing: NoNeed, language: str) -> str:
    """Return why nothing can be advised of an input."""
    reason = why_not_words(missing.refused, language)
    return say("No advice on {input}: {reason}.", input=input_name(missing.input), reason=reason)


def why_not_words(refused: Refused, language: str) -> str:
    """Return why nothing can be advised, as a part of a sentence."""
    facts = refused.facts
    reason = _VOID.get(str(facts.get("reason", ""))) if refused.why is WhyNot.RULE_VOID else None
    if reason is not None:
        return say(reason, **{name: fact_words(name, value, language) for name, value in facts.items()})
    if refused.why is WhyNot.NOT_MEASURED:
        return _lacking(facts["needs"])
    return reason_words(refused, language)


def has_reason_words(reason: str) -> bool:
    """Return whether a reason of advice for a void rule has words."""
    return reason in _VOID


def closing_sentences(closing: Closing, product: str, language: str) -> tuple[str, ...]:
    """Return what spreading a product does to sampling, and the order that is proposed."""
    days = span_words(Span(closing.spread_from, closing.spread_to), language)
    until = long_day(closing.closes_until, language)
    said = say("Spreading {product} on {days} closes sampling until {day}.", product=product, days=days, day=until)
    if closing.sample_first:
        order = say("Sample first, then spread.")
    else:
        order = say("Spread first; the next sampling can wait.")
    if closing.window_first is None or closing.window_last is None:
        return said, order, say("Followed, it leaves no day of that season for sampling.")
    window = span_words(Span(closing.window_first, closing.window_last), language)
    return said, order, say("Followed, it leaves {window} for the next sampling.", window=window)


def citation(source: Source, status: Status) -> str:
    """Return the citation of a source, with the word where it was not read there."""
    source = said_source(source)
    year = f" ({source.year})" if source.year else ""
    where = f", {source.where}" if source.where else ""
    title = source.title if source.author else began(source.title)
    author = f"{source.author}{year}: " if source.author else ""
    cited = f"{author}{title}{where}"
    return cited if status is Status.VERIFIED else f"{cited} [{unverified_words()}]"


def _unverified(need: Need) -> Iterator[str]:
    """Yield that a figure behind a need was not read."""
    binding = need.caps[:1] if need.caps and need.caps[0].amount <= need.amount else ()
    statuses = [*(one.status for one in need.steps), *(one.status for one in binding)]
    if any(one is not Status.VERIFIED for one in statuses):
        yield say("A figure behind it is unverified: it was not read in its source.")


def _word(status: Status) -> str:
    """Return that a figure is unverified."""
    return "" if status is Status.VERIFIED else f" {say(UNVERIFIED)}"


#: Things that advice lacks and that no laboratory measures.
_PLANNED = {
    "target-yield": marked("the target yield"),
    "target-protein": marked("the target protein"),
    "growing-season-rain": marked("the rain of the growing season"),
}
_MEASURED = {
    "profile-nitrogen": marked("mineral nitrogen of the profile"),
    "organic-carbon": marked("organic carbon"),
    "bulk-density": marked("bulk density"),
    "texture": marked("texture"),
}


def _lacking(needs: Fact) -> str:
    """Return what is lacking: what was not measured, and what the plan does not say."""
    names = [str(one) for one in needs] if isinstance(needs, tuple) else [str(needs)]
    measured = [_measured_name(one) for one in names if one not in _PLANNED]
    planned = [say(_PLANNED[one]) for one in names if one in _PLANNED]
    not_measured = say_count(
        "{names} was not measured", "{names} were not measured", len(measured), names=joined(measured)
    )
    not_known = say_count("{names} is not known", "{names} are not known", len(planned), names=joined(planned))
    if measured and planned:
        return say("{not_measured}, and {not_known}", not_measured=not_measured, not_known=not_known)
    return not_measured if measured else not_known


def _measured_name(code: str) -> str:
    """Return what a laboratory would measure, in a sentence."""
    known = _MEASURED.get(code) or next((words for what, words in _INPUTS.items() if what.value == code), None)
    return say(known) if known else name_of(code)


#: Why a rule does not hold, with the names of its facts.
_VOID: Mapping[str, str] = {
    "no-rule": marked("no rule for it was read for this region on land under {land_use}"),
    "no-rule-here": marked("no rule of lime was read for land under {land_use} in {region}"),
    "no-rate-rule": marked("no source says how much lifts pH {ph} to pH {target} here"),
    "no-target": marked("the region's rule names no target pH, and the client has none"),
    "target-not-in-rule": marked("the rule of the region has no target of pH {target}; it has {targets}"),
    "earlier-season": marked("the profile was sampled on {sampled}, before an earlier crop that used its nitrogen"),
    "no-line": marked("the guideline describes the result and has no line of what is enough"),
    "no-crop-plan": marked("the cropping plan has nothing for {year}"),
    "crop-without-figures": marked("no figures for {crop} were read"),
    "crop-without-rate": marked("the region's table has no rate for the crop of {year}"),
    "classes-unknown": marked("the guideline's classes are not those of the rule"),
}
