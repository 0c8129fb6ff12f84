"""Why a value is not judged, or a quantity not reckoned, as sentences and parts of them."""

from __future__ import annotations

from collections.abc import Callable

from soilrota.documents.dates import digits, joined, number
from soilrota.documents.id_words import ground_words, method_words, rainfall_words
from soilrota.documents.value_words import began, is_named, name_of
from soilrota.language import marked, marked_as, say, say_as, say_count
from soilrota.model.judgement import NoQuantity, Refused
from soilrota.model.judgement import WhyNot as Why

_DECIMALS = 4


def refused_sentence(what: str, refused: Refused, language: str) -> str:
    """Return why something is not judged, as a sentence.

    Args:
        what: what is not judged, for instance `Colwell P`.
        refused: why.
        language: language tag of the client.
    """
    return say("{what} is not judged: {reason}.", what=what, reason=reason_words(refused, language))


def no_quantity_sentence(missing: NoQuantity, language: str) -> str:
    """Return why a quantity is not reckoned, as a sentence."""
    reason = reason_words(missing.refused, language)
    return say("{quantity} is not reckoned: {reason}.", quantity=began(name_of(missing.code)), reason=reason)


def reason_words(refused: Refused, language: str) -> str:
    """Return why there is no judgement, as a part of a sentence."""
    facts = _Facts(refused, language)
    clause = _CLAUSES.get(refused.why)
    return _REASONS[refused.why](facts) if clause is None else say(clause)


class _Facts:
    """The facts of a refusal, as words."""

    def __init__(self, refused: Refused, language: str) -> None:
        self._facts = refused.facts
        self._language = language

    def names(self, key: str, words: Callable[[str], str] = str) -> str:
        """Return names of a fact as a list in a sentence."""
        found = self._facts.get(key, ())
        return joined([words(str(one)) for one in (found if isinstance(found, tuple) else (found,))])

    def count(self, key: str) -> int:
        """Return how many names a fact has, at least one."""
        found = self._facts.get(key, ())
        return max(1, len(found)) if isinstance(found, tuple) else 1

    def one(self, key: str) -> str:
        """Return one fact, a number in the client's form."""
        found = self._facts.get(key, "")
        return number(found, self._language, _DECIMALS) if isinstance(found, float | int) else str(found)

    def has(self, key: str) -> bool:
        """Return whether there is such a fact."""
        return key in self._facts


def _named(code: str) -> str:
    """Return a code as it is read, whether or not a table has it."""
    return name_of(code) if is_named(code) else ground_words(code.partition(".")[0])


def _other_method(facts: _Facts) -> str:
    """Return that the guideline speaks of other methods."""
    if facts.has("units") and not facts.has("methods"):
        return say(
            "the guideline speaks of it in {units}, this value is in {unit}",
            units=facts.names("units"),
            unit=facts.one("unit"),
        )
    methods = facts.names("methods", method_words)
    return say("the guideline speaks of it by {methods}, this value is by another method", methods=methods)


#: Ground of which a guideline speaks, said of one and of several, and how the ids of it are read.
_LAND = marked_as("ground", "land under {names}")
_RAIN = marked_as("ground", "rainfall that is {names}")
_CROP = marked_as("ground", "the crop {names}")
_GROUND: dict[str, tuple[str, str, Callable[[str], str]]] = {
    "land_uses": (_LAND, _LAND, ground_words),
    "textures": (marked_as("ground", "the texture {names}"), marked_as("ground", "the textures {names}"), ground_words),
    "crops": (_CROP, marked_as("ground", "the crops {names}"), ground_words),
    "rainfall_zones": (_RAIN, _RAIN, rainfall_words),
    "crop": (_CROP, _CROP, ground_words),
}


def _other_ground(facts: _Facts) -> str:
    """Return that the guideline speaks of other ground."""
    said = [
        say_as("ground", one if facts.count(key) == 1 else several, names=facts.names(key, words))
        for key, (one, several, words) in _GROUND.items()
        if facts.has(key)
    ]
    return say("the guideline speaks of {ground}", ground=joined(said)) if said else say(_SOME_OTHER_GROUND)


_SOME_OTHER_GROUND = marked("the guideline speaks of other ground")
_VOID = {
    "gypsum": marked("gypsum in the soil makes its conductivity say nothing of the salinity"),
    "unit": marked("a value is in a unit that cannot be used"),
    "below-nought": marked("the figures give less than nothing, which no soil has"),
    "divided-by-nought": marked("one of the figures is nought"),
    "layers-apart": marked("the layers leave a gap between them"),
    "layers-overlap": marked("the layers overlap"),
}
_SOME_VOID = marked("the rule does not hold for this soil")


def _void(facts: _Facts) -> str:
    """Return why a rule does not hold."""
    words = _VOID.get(facts.one("reason"), _SOME_VOID)
    return say(words)


#: Reasons without facts.
_CLAUSES = {
    Why.NO_SET: marked("no guideline was chosen for the zone, and none is the usual one there"),
    Why.NOT_IN_SET: marked("the guideline says nothing of it"),
    Why.SAMPLE_UNUSABLE: marked("something was found about the sample that keeps it out of advice"),
    Why.CENSORED: marked("the laboratory could only tell that it lies beyond a limit, and the line lies there too"),
}
_REASONS: dict[Why, Callable[[_Facts], str]] = {
    Why.OTHER_METHOD: _other_method,
    Why.OTHER_LAYER: lambda facts: say("the guideline speaks of {layers} cm", layers=facts.names("layers", digits)),
    Why.OTHER_GROUND: _other_ground,
    Why.COVARIATE_MISSING: lambda facts: say("{name} is not known", name=facts.names("covariate", _named)),
    Why.OUTSIDE_CALIBRATION: lambda facts: say(
        "{name} of {value} is outside what the guideline was made for",
        name=facts.names("covariate", _named),
        value=facts.one("value"),
    ),
    Why.NOT_MEASURED: lambda facts: say_count(
        "{names} was not measured",
        "{names} were not measured",
        facts.count("needs"),
        names=facts.names("needs", _named),
    ),
    Why.RULE_VOID: _void,
}
