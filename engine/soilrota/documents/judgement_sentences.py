"""Judgements as sentences: what a value means, how sure that is, why it is not rated, how it moved.

Figures that were not read in their source carry the word `unverified` wherever they are used.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from soilrota.documents.dates import counted, joined, long_day, number
from soilrota.documents.words import LAND_USES
from soilrota.guidelines.derived_codes import derived_codes
from soilrota.model.guideline import GuidelineRow, Sense, Status
from soilrota.model.judgement import Covariate, FarmSpread, NoQuantity, Quantity, Rating, Refused, Trend, TrendVerdict
from soilrota.model.judgement import WhyNot as Why
from soilrota.model.results import Result
from soilrota.quantities import all_codes, analysis_name, format_value

_DECIMALS = 4
#: Units that nobody writes behind a number.
_BARE = ("pH", "index", "ratio")
_PROPERTIES = {"clay-percent": "clay", "crop": "the crop that is grown", "texture": "the field texture"}
#: Below and above these shares of 100 a probability is said in words.
_SURE, _UNSURE = 0.99, 0.01
#: Stands wherever such a figure is used.
UNVERIFIED = "The figure is unverified: it was not read in its source."


def value_words(analyte: str, method: str, value: float, unit: str, qualifier: str = "") -> str:
    """Return a value with the decimals of its method and its unit.

    >>> value_words("phosphorus", "colwell", 35.0, "mg/kg"), value_words("ph", "cacl2", 5.25, "pH", "<")
    ('35 mg/kg', '<5.3')
    """
    known = derived_codes().get(analyte)
    digits = f"{value:.{known.decimals}f}" if known and method == "derived" else format_value(analyte, method, value)
    return f"{qualifier}{digits}" + ("" if unit in _BARE else f" {unit}".replace(" %", "%"))


def name_of(code: str) -> str:
    """Return what an analysis or a derived quantity is called, in a sentence.

    >>> name_of("phosphorus.colwell"), name_of("sodium-share"), name_of("clay-percent")
    ('Colwell P', 'sodium share of the exchange capacity', 'clay')
    """
    plain = code.removesuffix(".derived")
    known = derived_codes().get(plain)
    if known is not None:
        return known.name[:1].lower() + known.name[1:] if known.name[1:2].islower() else known.name
    return _PROPERTIES.get(plain) or analysis_name(plain)


def began(name: str) -> str:
    """Return a name as a sentence begins with it; a sign such as pH keeps its letters.

    >>> began("sodium share"), began("pH (CaCl2)"), began("Colwell P")
    ('Sodium share', 'pH (CaCl2)', 'Colwell P')
    """
    return name if name[1:2].isupper() else f"{name[:1].upper()}{name[1:]}"


def result_words(result: Result) -> str:
    """Return the value of a result with its unit."""
    return value_words(result.analyte, result.method, result.value, result.unit, result.qualifier)


def rating_sentence(rating: Rating, language: str) -> str:
    """Return what a value means, and how sure that is."""
    row, result = rating.row, rating.result
    name = name_of(f"{result.analyte}.{result.method}")
    value = f"{began(name)} of {result_words(result)}"
    rated = f"{value} is rated {rating.words}" if rating.words else value
    if rating.critical is None:
        return f"{rated}.{_unverified(row)}"
    line = f"the line of {_in(row, rating.critical)}{_interval(rating)}{_followed(rating.covariates, language)}"
    joint = ", and " if rating.words else " "
    return f"{rated}{joint}{_side(rating)} {line}. {_sure(rating)}{_unverified(row)}"


def _side(rating: Rating) -> str:
    """Return where a value stands against its line."""
    if rating.near:
        return "is near"
    under = rating.result.value < (rating.critical or 0.0) or rating.result.qualifier == "<"
    return "lies under" if under else "is not under"


def _interval(rating: Rating) -> str:
    """Return the published interval of a line in brackets; empty without one."""
    low, high = rating.critical_low, rating.critical_high
    if low is None or high is None or low == high:
        return ""
    return f" (published as {_in(rating.row, low).partition(' ')[0]} to {_in(rating.row, high)})"


def _followed(covariates: Iterable[Covariate], language: str) -> str:
    """Return what a line hangs on."""
    said = [f"{name_of(one.code)} of {number(one.value, language, _DECIMALS)}" for one in covariates]
    return f" for {joined(said)}" if said else ""


def _sure(rating: Rating) -> str:
    """Return how sure it is that the zone's true mean lies under the line."""
    below = rating.below
    if below is None:
        return ""
    bound = {"<": "at least ", ">": "at most "}.get(rating.result.qualifier, "about ")
    if below > _SURE:
        return "The zone's true mean almost certainly lies under it."
    if below < _UNSURE:
        return "The zone's true mean almost certainly does not lie under it."
    return f"The chance that the zone's true mean lies under it is {bound}{round(below * 100)} in 100."


def _unverified(row: GuidelineRow) -> str:
    """Return that a figure is unverified."""
    return "" if row.status is Status.VERIFIED else f" {UNVERIFIED}"


def _in(row: GuidelineRow, value: float) -> str:
    """Return a figure in the unit of a row."""
    return value_words(row.analyte, row.method, value, row.unit)


def sense_words(row: GuidelineRow) -> str:
    """Return what lies beyond a row's line, in words."""
    return {
        Sense.SUFFICIENCY: "under the line there is too little",
        Sense.EXCESS: "over the line there is too much",
        Sense.DESCRIPTION: "the line describes and asks for nothing",
    }[row.sense]


def refused_sentence(what: str, refused: Refused, language: str) -> str:
    """Return why something is not judged, as a sentence.

    Args:
        what: what is not judged, for instance `Colwell P`.
        refused: why.
        language: language tag of the client.
    """
    return f"{what} is not judged: {reason_words(refused, language)}."


def reason_words(refused: Refused, language: str) -> str:
    """Return why there is no judgement, as a part of a sentence."""
    return _REASONS[refused.why](_Facts(refused, language))


def no_quantity_sentence(missing: NoQuantity, language: str) -> str:
    """Return why a quantity is not reckoned, as a sentence."""
    name = name_of(missing.code)
    return f"{began(name)} is not reckoned: {reason_words(missing.refused, language)}."


class _Facts:
    """The facts of a refusal, as words."""

    def __init__(self, refused: Refused, language: str) -> None:
        self._facts = refused.facts
        self._language = language

    def names(self, key: str, words: Callable[[str], str] = str) -> str:
        """Return names of a fact as a list in a sentence."""
        found = self._facts.get(key, ())
        return joined([words(str(one)) for one in (found if isinstance(found, tuple) else (found,))])

    def was(self, key: str) -> str:
        """Return the verb for the names of a fact."""
        found = self._facts.get(key, ())
        return "were" if isinstance(found, tuple) and len(found) > 1 else "was"

    def one(self, key: str) -> str:
        """Return one fact, a number in the client's form."""
        found = self._facts.get(key, "")
        return number(found, self._language, _DECIMALS) if isinstance(found, float | int) else str(found)

    def has(self, key: str) -> bool:
        """Return whether there is such a fact."""
        return key in self._facts


def _plain(word: str) -> str:
    """Return a word of the data as it is read."""
    return LAND_USES.get(word, word.replace("-", " "))


def _named(code: str) -> str:
    """Return a code as it is read, whether or not a table has it."""
    known = code in derived_codes() or code in all_codes() or code in _PROPERTIES
    return name_of(code) if known else _plain(code.partition(".")[0])


def _other_method(facts: _Facts) -> str:
    """Return that the guideline speaks of other methods."""
    if facts.has("units") and not facts.has("methods"):
        return f"the guideline speaks of it in {facts.names('units')}, this value is in {facts.one('unit')}"
    return f"the guideline speaks of it by {facts.names('methods', _plain)}, this value is by another method"


def _other_ground(facts: _Facts) -> str:
    """Return that the guideline speaks of other ground."""
    kinds = {
        "land_uses": "land under",
        "textures": "textures",
        "crops": "the crops",
        "rainfall_zones": "rainfall that is",
        "crop": "the crop",
    }
    said = [f"{words} {facts.names(key, _plain)}" for key, words in kinds.items() if facts.has(key)]
    return f"the guideline speaks of {joined(said)}" if said else "the guideline speaks of other ground"


_VOID = {
    "gypsum": "gypsum in the soil makes its conductivity say nothing of the salinity",
    "unit": "a value is in a unit that cannot be used",
    "below-nought": "the figures give less than nothing, which no soil has",
    "divided-by-nought": "one of the figures is nought",
    "layers-apart": "the layers leave a gap between them",
    "layers-overlap": "the layers overlap",
}


def _void(facts: _Facts) -> str:
    """Return why a rule does not hold."""
    return _VOID.get(facts.one("reason"), "the rule does not hold for this soil")


_REASONS: dict[Why, Callable[[_Facts], str]] = {
    Why.NO_SET: lambda _facts: "no guideline was chosen for the zone, and none is the usual one there",
    Why.NOT_IN_SET: lambda _facts: "the guideline says nothing of it",
    Why.OTHER_METHOD: _other_method,
    Why.OTHER_LAYER: lambda facts: f"the guideline speaks of {facts.names('layers')} cm",
    Why.OTHER_GROUND: _other_ground,
    Why.COVARIATE_MISSING: lambda facts: f"{facts.names('covariate', _named)} is not known",
    Why.OUTSIDE_CALIBRATION: lambda facts: (
        f"{facts.names('covariate', _named)} of {facts.one('value')} is outside what the guideline was made for"
    ),
    Why.SAMPLE_UNUSABLE: lambda _facts: "something was found about the sample that keeps it out of advice",
    Why.CENSORED: lambda _facts: (
        "the laboratory could only tell that it lies beyond a limit, and the line lies there too"
    ),
    Why.NOT_MEASURED: lambda facts: f"{facts.names('needs', _named)} {facts.was('needs')} not measured",
    Why.RULE_VOID: _void,
}


def quantity_sentence(quantity: Quantity) -> str:
    """Return a derived quantity with what the doubt in its inputs leaves."""
    name = name_of(quantity.code)
    of = f" of {name_of(str(quantity.facts['analysis']))}" if "analysis" in quantity.facts else ""
    of = f" of {_plain(str(quantity.facts['crop']))}" if "crop" in quantity.facts else of
    value, low, high = (
        value_words(quantity.code, "derived", one, quantity.unit)
        for one in (quantity.value, quantity.low, quantity.high)
    )
    shared = low.rpartition(" ")[0] if " " in low else low
    said = f"{began(name)}{of} is {value} ({shared} to {high})."
    weak = " A ratio by itself is weak evidence." if "ratio-weak" in quantity.cautions else ""
    salts = (
        " Salts are high and chloride was not measured, so it is too high."
        if "sodium-uncorrected" in quantity.cautions
        else ""
    )
    status = "" if quantity.status is Status.VERIFIED else " A figure in it is unverified."
    return f"{said}{weak}{salts}{status}"


_VERDICTS = {
    TrendVerdict.RISING: "It is rising",
    TrendVerdict.FALLING: "It is falling",
    TrendVerdict.NO_CHANGE_SHOWN: "No change is shown",
    TrendVerdict.TOO_SHORT: "There are too few comparable values to speak of a trend",
}
_BREAKS = {
    "method": "another method",
    "layer": "another layer",
    "season": "another season",
    "zone-redrawn": "the zone as it was drawn before",
    "laboratory": "another laboratory",
    "unit": "another unit",
}


def trend_sentence(trend: Trend, language: str) -> str:
    """Return how values moved, and what was left out because it does not compare."""

    def figure(value: float) -> str:
        return value_words(trend.analyte, trend.method, value, trend.unit)

    said = _VERDICTS[trend.verdict]
    years = sorted({point.sampled.year for point in trend.points})
    if len(years) > 1 and trend.verdict is not TrendVerdict.TOO_SHORT:
        said = f"{said} from {years[0]} to {years[-1]}"
    if trend.slope is not None and trend.verdict in {TrendVerdict.RISING, TrendVerdict.FALLING}:
        said = f"{said}, by about {number(abs(trend.slope), language, 2)} a year"
    if trend.change is not None:
        said = f"{said}; two such values must differ by {figure(trend.detectable)} before that can be told from chance"
    if not trend.left_out:
        return f"{said}."
    why = joined([_BREAKS.get(one, one) for one in trend.broken_by])
    does = "does" if trend.left_out == 1 else "do"
    return f"{said}. {counted(trend.left_out, 'earlier value', 'earlier values')} {does} not compare: {why}."


def spread_sentence(spread: FarmSpread, farm: str, names: Callable[[str], str]) -> str:
    """Return what the farm's mean would have hidden, as a sentence.

    Args:
        spread: the spread.
        farm: name of the farm.
        names: the name of a zone by its id.
    """

    def figure(value: float) -> str:
        return value_words(spread.analyte, spread.method, value, spread.unit)

    name = name_of(f"{spread.analyte}.{spread.method}")
    said = f"{began(name)} on {farm} goes from {figure(spread.lowest[1])} ({names(spread.lowest[0])}) to "
    said += f"{figure(spread.highest[1])} ({names(spread.highest[0])})"
    if spread.mean is None:
        return f"{said}."
    mean = f"{said}; the mean over the area is {figure(spread.mean)}"
    if spread.mean_below is False and spread.below:
        verb = "lies" if len(spread.below) == 1 else "lie"
        return (
            f"{mean} and would have hidden that {joined([names(one) for one in spread.below])} {verb} under the line."
        )
    return f"{mean}."


def source_words(row: GuidelineRow) -> str:
    """Return the citation of a row's source."""
    source = row.source
    year = f" ({source.year})" if source.year else ""
    where = f", {source.where}" if source.where else ""
    status = "" if row.status is Status.VERIFIED else " [unverified]"
    return f"{source.author}{year}: {source.title}{where}{status}"


def sampled_words(result: Result, language: str) -> str:
    """Return the layer and day of a result."""
    return f"{result.top_cm:g}–{result.bottom_cm:g} cm, sampled {long_day(result.sampled, language)}"
