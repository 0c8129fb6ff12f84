"""What each step of a working, and each maximum, says in plain English; its amount and figures are said elsewhere."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from soilrota.documents.advice_facts import fact_words, plain
from soilrota.documents.dates import joined
from soilrota.model.findings import Fact


class _Said:
    """The figures of a step, as words."""

    def __init__(self, facts: Mapping[str, Fact], language: str) -> None:
        self._facts = facts
        self._language = language

    def __getitem__(self, name: str) -> str:
        """Return one figure; a dash where it is not there."""
        return fact_words(name, self._facts[name], self._language) if name in self._facts else "–"

    def has(self, name: str) -> bool:
        """Return whether there is such a figure."""
        return name in self._facts

    def is_less(self, name: str, other: str) -> bool:
        """Return whether one figure is less than another."""
        first, second = self._facts.get(name), self._facts.get(other)
        return isinstance(first, int | float) and isinstance(second, int | float) and first < second

    @property
    def layer(self) -> str:
        """Return the layer [cm]."""
        return f"{self['top_cm']}–{self['bottom_cm']} cm"

    @property
    def unit(self) -> str:
        """Return the unit behind a number; empty where nobody writes one."""
        found = str(self._facts.get("unit", ""))
        return "" if found in {"", "pH", "index", "ratio"} else f"{'' if found == '%' else ' '}{found}"


_Words = Callable[[_Said], str]


def _lift(what: str) -> _Words:
    """Return the words of lifting a layer's pH."""
    return lambda said: (
        f"To lift the {what} ({said.layer}) from pH {said['ph']} to pH {said['target']}; "
        f"liming starts below pH {said['act_below']}"
    )


def _target_met(said: _Said) -> str:
    """Return that nothing is to be changed."""
    if said.has("share"):
        return f"The sodium share of {said['share']}% in {said.layer} is not above its line of {said['line']}%"
    return f"pH {said['ph']} in {said.layer} is not below pH {said['act_below']}, where liming starts"


def _build_up(said: _Said) -> str:
    """Return what lifts the soil."""
    if not said.is_less("result", "line"):
        return f"The result of {said['result']}{said.unit} is not under its line of {said['line']}{said.unit}"
    lift = f"To lift the soil from {said['result']}{said.unit} towards its line of {said['line']}{said.unit}"
    share = f", the share of {said['harvests']} of {said['years']} years" if said.has("years") else ""
    return f"{lift}{share}"


def _by_class(said: _Said) -> str:
    """Return what a table gives by class."""
    where = f" in class {said['class']}" if said.has("class") else ""
    return f"What the table gives for a result of {said['result']}{said.unit}{where}"


def _result_alone(said: _Said) -> str:
    """Return that the soil itself asks for nothing more."""
    return (
        f"For the soil itself nothing is added at a result of {said['result']}{said.unit}: only harvests are made good"
    )


def _removal(said: _Said) -> str:
    """Return what a harvest takes off."""
    off = f"To give back what {said['crop']} of {said['year']} takes off"
    return off + (f" with {said['leaves']}" if said.has("leaves") and said["leaves"] else "")


def _demand(said: _Said) -> str:
    """Return what a crop must find."""
    protein = f" at {said['protein_percent']}% protein" if said.has("protein_percent") else ""
    return f"What {said['crop']} of {said['year']} must find for {said['target_yield']} t/ha{protein}"


def _applied(what: str) -> _Words:
    """Return the words of something that was or will be spread."""
    return lambda said: (
        f"{what}{' on ' + said['day'] if said.has('day') else ''}: {said['rate_kg_ha']} kg/ha of {said['product']}"
    )


_STEPS: Mapping[str, _Words] = {
    "lift-topsoil": _lift("topsoil"),
    "lift-below": _lift("layer below"),
    "target-met": _target_met,
    "too-little-to-spread": lambda said: f"Less than {said['least']} t/ha is not worth spreading, so it is left",
    "acid-of-produce": lambda said: f"To make good the acid of what leaves the field: {said['produce']}",
    "acid-of-nitrogen": lambda said: f"To make good the acid of nitrogen fertiliser: {said['fertilisers']}",
    "sodium-to-change": lambda said: (
        f"To bring the sodium share in {said.layer} from {said['share']}% to {said['target']}%"
    ),
    "incomplete-exchange": lambda _said: "More, because the exchange of sodium is never complete",
    "demand": _demand,
    "soil-mineral-nitrogen": lambda said: f"Mineral nitrogen that is in the soil already, {said.layer}",
    "legume-credit": lambda said: (
        f"What {said['crop']} of {said['year']} still adds to it, {said['per_unit']} kg/ha for each of "
        f"{said['target_yield']} t/ha of grain: {said['to_come_percent']}% of the fallow came after the sampling"
    ),
    "legume-in-profile": lambda said: (
        f"What {said['crop']} of {said['year']} left is in that already: the fallow was over when it was sampled"
    ),
    "mineralised": lambda said: (
        f"What the soil sets free in the season, from {said['organic_carbon']}% organic carbon and "
        f"{said['rain_mm']} mm of rain"
    ),
    "already-applied": _applied("Spread since the sampling"),
    "planned": _applied("Planned to be spread"),
    "not-below-nought": lambda _said: "What is beyond the need is not carried on",
    "index": _by_class,
    "class-rate": _by_class,
    "build-up": _build_up,
    "result-alone": _result_alone,
    "removal": _removal,
    "removal-unknown": lambda said: (
        f"What {said['crop']} of {said['year']} takes off is not known and not counted: {said['reason']}"
    ),
}


def _most_dressings(said: _Said) -> str:
    """Return the words of the most dressings."""
    borrowed = f"; the figure is that of {said['borrowed']}, none was read for here" if said.has("borrowed") else ""
    most = f"{said['dressings']} dressings of at most {said['one_dressing']} t/ha each"
    return f"{most} before the soil is measured again{borrowed}"


def _legal(said: _Said) -> str:
    """Return the words of a legal maximum."""
    of = joined([said["use"], f"class {said['index']}"])
    already = f", less {said['spread_already']} kg/ha of phosphorus spread or planned this calendar year"
    return f"the law allows {said['kg_p2o5_ha']} kg P2O5/ha for {of}{already}. {said['caution']}".rstrip(". ")


_CAPS: Mapping[str, _Words] = {
    "most-dressings": _most_dressings,
    "above-limit": lambda said: (
        f"the result of {said['value']}{said.unit} lies above the guideline's upper limit of {said['limit']}{said.unit}"
    ),
    "clearly-above-line": lambda said: (
        f"the result of {said['value']} is clearly above its line of {said['line']}, and no source says that a harvest "
        "is to be made good there"
    ),
    "legal": _legal,
}


def step_rule_words(rule: str, facts: Mapping[str, Fact], language: str) -> str:
    """Return what a step of a working is, without a full stop; one without words here by its own name.

    Args:
        rule: id of the step.
        facts: its figures.
        language: of the client.
    """
    return _said(_STEPS, rule, facts, language)


def cap_rule_words(rule: str, facts: Mapping[str, Fact], language: str) -> str:
    """Return why there is a maximum, as a part of a sentence; one of the practice's own by the name it gave."""
    words = _CAPS.get(rule)
    return words(_Said(facts, language)) if words else f"the practice's own maximum ({plain(rule)})"


def has_step_words(rule: str) -> bool:
    """Return whether a step has words of its own."""
    return rule in _STEPS


def has_cap_words(rule: str) -> bool:
    """Return whether a maximum has words of its own."""
    return rule in _CAPS


def _said(words: Mapping[str, _Words], rule: str, facts: Mapping[str, Fact], language: str) -> str:
    """Return the words of a rule."""
    found = words.get(rule)
    name = plain(rule)
    return found(_Said(facts, language)) if found else f"{name[:1].upper()}{name[1:]}"
