"""Judgements as sentences: what a value means, how sure that is, how it moved, what a farm's mean hides.

Figures that were not read in their source carry the word `unverified` wherever they are used. Why something is not
judged is said in `refusal_sentences`; values and names alone in `value_words`.
"""

from __future__ import annotations

from collections.abc import Callable

from soilrota.documents.dates import digits, joined, long_day, number
from soilrota.documents.id_words import ground_words
from soilrota.documents.refusal_sentences import no_quantity_sentence, reason_words, refused_sentence
from soilrota.documents.value_words import began, name_of, result_words, value_words
from soilrota.guidelines.cited import said_source
from soilrota.language import marked, say, say_as, say_count
from soilrota.model.guideline import GuidelineRow, Sense, Status
from soilrota.model.judgement import Covariate, FarmSpread, Quantity, Rating, Trend, TrendVerdict
from soilrota.model.results import Result

__all__ = [
    "UNVERIFIED",
    "began",
    "name_of",
    "no_quantity_sentence",
    "quantity_sentence",
    "rating_sentence",
    "reason_words",
    "refused_sentence",
    "result_words",
    "sampled_words",
    "sense_words",
    "source_words",
    "spread_sentence",
    "trend_sentence",
    "value_words",
]

_DECIMALS = 4
#: Below and above these shares of 100 a probability is said in words.
_SURE, _UNSURE = 0.99, 0.01
#: Stands wherever such a figure is used; whoever shows it says it.
UNVERIFIED = marked("The figure is unverified: it was not read in its source.")


def rating_sentence(rating: Rating, language: str) -> str:
    """Return what a value means, and how sure that is."""
    row, result = rating.row, rating.result
    name = began(name_of(f"{result.analyte}.{result.method}"))
    value = say_as("value", "{name} of {value}", name=name, value=result_words(result))
    rated = say(rating.words) if rating.words else ""
    if rating.critical is None:
        said = say("{value} is rated {rating}.", value=value, rating=rated) if rated else f"{value}."
    else:
        line = _line(rating, rating.critical, language)
        words = _SIDES[bool(rated), _side(rating, rating.critical)]
        said = " ".join(filter(None, (say(words, value=value, rating=rated, line=line), _sure(rating))))
    return said if row.status is Status.VERIFIED else f"{said} {say(UNVERIFIED)}"


#: What is said of a value by whether it has a class, and by where it stands against its line.
_SIDES = {
    (False, "near"): marked("{value} is near the line of {line}."),
    (False, "under"): marked("{value} lies under the line of {line}."),
    (False, "not-under"): marked("{value} is not under the line of {line}."),
    (True, "near"): marked("{value} is rated {rating}, and is near the line of {line}."),
    (True, "under"): marked("{value} is rated {rating}, and lies under the line of {line}."),
    (True, "not-under"): marked("{value} is rated {rating}, and is not under the line of {line}."),
}


def _side(rating: Rating, critical: float) -> str:
    """Return where a value stands against its line."""
    if rating.near:
        return "near"
    return "under" if rating.result.value < critical or rating.result.qualifier == "<" else "not-under"


def _line(rating: Rating, critical: float, language: str) -> str:
    """Return a line with its published interval, and with what it hangs on."""
    said, low, high = _in(rating.row, critical), rating.critical_low, rating.critical_high
    if low is not None and high is not None and low != high:
        lowest = _in(rating.row, low).partition(" ")[0]
        said = say("{line} (published as {low} to {high})", line=said, low=lowest, high=_in(rating.row, high))
    followed = joined([covariate_words(one, language) for one in rating.covariates])
    return say("{line} for {covariates}", line=said, covariates=followed) if followed else said


def _sure(rating: Rating) -> str:
    """Return how sure it is that the zone's true mean lies under the line; empty where that is not known."""
    below = rating.below
    if below is None:
        return ""
    if below > _SURE:
        return say("The zone's true mean almost certainly lies under it.")
    if below < _UNSURE:
        return say("The zone's true mean almost certainly does not lie under it.")
    words = _CHANCES.get(rating.result.qualifier, _ABOUT)
    return say(words, chance=round(below * 100))


_ABOUT = marked("The chance that the zone's true mean lies under it is about {chance} in 100.")
#: The same by the sign of a value beyond a limit.
_CHANCES = {
    "<": marked("The chance that the zone's true mean lies under it is at least {chance} in 100."),
    ">": marked("The chance that the zone's true mean lies under it is at most {chance} in 100."),
}


def covariate_words(covariate: Covariate, language: str) -> str:
    """Return what a line hangs on, with its value."""
    value = number(covariate.value, language, _DECIMALS)
    return say_as("value", "{name} of {value}", name=name_of(covariate.code), value=value)


def _in(row: GuidelineRow, value: float) -> str:
    """Return a figure in the unit of a row."""
    return value_words(row.analyte, row.method, value, row.unit)


_SENSES = {
    Sense.SUFFICIENCY: marked("under the line there is too little"),
    Sense.EXCESS: marked("over the line there is too much"),
    Sense.DESCRIPTION: marked("the line describes and asks for nothing"),
}


def sense_words(row: GuidelineRow) -> str:
    """Return what lies beyond a row's line, in words."""
    return say(_SENSES[row.sense])


def quantity_sentence(quantity: Quantity) -> str:
    """Return a derived quantity with what the doubt in its inputs leaves."""
    name = _quantity_name(quantity)
    value, low, high = (
        value_words(quantity.code, "derived", one, quantity.unit)
        for one in (quantity.value, quantity.low, quantity.high)
    )
    shared = low.rpartition(" ")[0] if " " in low else low
    if low == value == high:
        said = [say("{name} is {value}.", name=name, value=value)]
    else:
        said = [say("{name} is {value} ({low} to {high}).", name=name, value=value, low=shared, high=high)]
    if "ratio-weak" in quantity.cautions:
        said.append(say("A ratio by itself is weak evidence."))
    if "sodium-uncorrected" in quantity.cautions:
        said.append(say("Salts are high and chloride was not measured, so it is too high."))
    if quantity.status is not Status.VERIFIED:
        said.append(say("A figure in it is unverified."))
    return " ".join(said)


def _quantity_name(quantity: Quantity) -> str:
    """Return what a derived quantity is called as a sentence begins with it, with the crop or the analysis it is of."""
    if "crop" in quantity.facts:
        return say_as(
            "quantity", "Yield of {crop} that salinity leaves", crop=ground_words(str(quantity.facts["crop"]))
        )
    if "analysis" in quantity.facts:
        return say_as("quantity", "Stock in the layer by {analysis}", analysis=name_of(str(quantity.facts["analysis"])))
    return began(name_of(quantity.code))


#: Without and with the years that the values are of.
_VERDICTS = {
    TrendVerdict.RISING: (marked("It is rising"), marked("It is rising from {first} to {last}")),
    TrendVerdict.FALLING: (marked("It is falling"), marked("It is falling from {first} to {last}")),
    TrendVerdict.NO_CHANGE_SHOWN: (marked("No change is shown"), marked("No change is shown from {first} to {last}")),
}
_TOO_SHORT = marked("There are too few comparable values to speak of a trend")
_BREAKS = {
    "method": marked("another method"),
    "layer": marked("another layer"),
    "season": marked("another season"),
    "zone-redrawn": marked("the zone as it was drawn before"),
    "laboratory": marked("another laboratory"),
    "unit": marked("another unit"),
}


def trend_sentence(trend: Trend, language: str) -> str:
    """Return how values moved, and what was left out because it does not compare."""
    said = _verdict(trend)
    if trend.slope is not None and trend.verdict in {TrendVerdict.RISING, TrendVerdict.FALLING}:
        said = say("{trend}, by about {slope} a year", trend=said, slope=number(abs(trend.slope), language, 2))
    if trend.change is not None:
        least = value_words(trend.analyte, trend.method, trend.detectable, trend.unit)
        said = say(
            "{trend}; two such values must differ by {amount} before that can be told from chance",
            trend=said,
            amount=least,
        )
    if not trend.left_out:
        return f"{said}."
    why = joined([say(_BREAKS[one]) if one in _BREAKS else one for one in trend.broken_by])
    left_out = say_count(
        "{count} earlier value does not compare: {why}.",
        "{count} earlier values do not compare: {why}.",
        trend.left_out,
        why=why,
    )
    return f"{said}. {left_out}"


def _verdict(trend: Trend) -> str:
    """Return which way values moved, and over which years."""
    if trend.verdict is TrendVerdict.TOO_SHORT:
        return say(_TOO_SHORT)
    alone, over_years = _VERDICTS[trend.verdict]
    years = sorted({point.sampled.year for point in trend.points})
    return say(over_years, first=years[0], last=years[-1]) if len(years) > 1 else say(alone)


def spread_sentence(spread: FarmSpread, farm: str, names: Callable[[str], str]) -> str:
    """Return what the farm's mean would have hidden, as a sentence.

    Args:
        spread: the spread.
        farm: name of the farm.
        names: the name of a zone by its id.
    """

    def figure(value: float) -> str:
        return value_words(spread.analyte, spread.method, value, spread.unit)

    said = say(
        "{name} on {farm} goes from {lowest} ({low_zone}) to {highest} ({high_zone})",
        name=began(name_of(f"{spread.analyte}.{spread.method}")),
        farm=farm,
        lowest=figure(spread.lowest[1]),
        low_zone=names(spread.lowest[0]),
        highest=figure(spread.highest[1]),
        high_zone=names(spread.highest[0]),
    )
    if spread.mean is None:
        return f"{said}."
    mean = say("{spread}; the mean over the area is {mean}", spread=said, mean=figure(spread.mean))
    if spread.mean_below is False and spread.below:
        return say_count(
            "{mean} and would have hidden that {zones} lies under the line.",
            "{mean} and would have hidden that {zones} lie under the line.",
            len(spread.below),
            mean=mean,
            zones=joined([names(one) for one in spread.below]),
        )
    return f"{mean}."


def source_words(row: GuidelineRow) -> str:
    """Return the citation of a row's source, with the word where it was not read there."""
    source = said_source(row.source)
    year = f" ({source.year})" if source.year else ""
    where = f", {source.where}" if source.where else ""
    cited = f"{source.author}{year}: {source.title}{where}"
    return cited if row.status is Status.VERIFIED else f"{cited} [{unverified_words()}]"


def unverified_words() -> str:
    """Return the word for a figure that was not read in its source."""
    return say("unverified")


def layer_words(top_cm: float, bottom_cm: float) -> str:
    """Return a layer with its unit.

    >>> layer_words(0.0, 7.5)
    '0–7.5 cm'
    """
    return f"{digits(f'{top_cm:g}–{bottom_cm:g}')} cm"


def sampled_words(result: Result, language: str) -> str:
    """Return the layer and day of a result."""
    layer = layer_words(result.top_cm, result.bottom_cm)
    return say("{layer}, sampled {day}", layer=layer, day=long_day(result.sampled, language))
