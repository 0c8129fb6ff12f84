"""What each step of a working, and each maximum, says in plain English; its amount and figures are said elsewhere."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from soilrota.documents.advice_facts import fact_words
from soilrota.documents.dates import with_unit
from soilrota.documents.id_words import plain
from soilrota.documents.value_words import BARE
from soilrota.language import say
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

    def with_unit(self, name: str) -> str:
        """Return one figure with the unit beside it, where anybody writes one."""
        found = str(self._facts.get("unit", ""))
        return with_unit(str(self[name]), "" if found in BARE else found)


_Words = Callable[[_Said], str]


def _lift_topsoil(said: _Said) -> str:
    """Return the words of lifting the topsoil's pH."""
    return say(
        "To lift the topsoil ({layer}) from pH {ph} to pH {target}; liming starts below pH {act_below}",
        layer=said.layer, ph=said["ph"], target=said["target"], act_below=said["act_below"],
    )  # fmt: skip


def _lift_below(said: _Said) -> str:
    """Return the words of lifting a lower layer's pH."""
    return say(
        "To lift the layer below ({layer}) from pH {ph} to pH {target}; liming starts below pH {act_below}",
        layer=said.layer, ph=said["ph"], target=said["target"], act_below=said["act_below"],
    )  # fmt: skip


def _target_met(said: _Said) -> str:
    """Return that nothing is to be changed."""
    if said.has("share"):
        return say(
            "The sodium share of {share}% in {layer} is not above its line of {line}%",
            share=said["share"], layer=said.layer, line=said["line"],
        )  # fmt: skip
    return say(
        "pH {ph} in {layer} is not below pH {act_below}, where liming starts",
        ph=said["ph"], layer=said.layer, act_below=said["act_below"],
    )  # fmt: skip


def _build_up(said: _Said) -> str:
    """Return what lifts the soil."""
    result, line = said.with_unit("result"), said.with_unit("line")
    if not said.is_less("result", "line"):
        return say("The result of {result} is not under its line of {line}", result=result, line=line)
    if not said.has("years"):
        return say("To lift the soil from {result} towards its line of {line}", result=result, line=line)
    return say(
        "To lift the soil from {result} towards its line of {line}, the share of {harvests} of {years} years",
        result=result, line=line, harvests=said["harvests"], years=said["years"],
    )  # fmt: skip


def _by_class(said: _Said) -> str:
    """Return what a table gives by class."""
    result = said.with_unit("result")
    if said.has("class"):
        return say(
            "What the table gives for a result of {result} in class {class_name}",
            result=result,
            class_name=said["class"],
        )
    return say("What the table gives for a result of {result}", result=result)


def _result_alone(said: _Said) -> str:
    """Return that the soil itself asks for nothing more."""
    return say(
        "For the soil itself nothing is added at a result of {result}: only harvests are made good",
        result=said.with_unit("result"),
    )


def _removal(said: _Said) -> str:
    """Return what a harvest takes off."""
    crop, year, leaves = said["crop"], said["year"], said["leaves"]
    if said.has("leaves") and leaves:
        return say(
            "To give back what the {year} harvest of {crop} takes off with {leaves}",
            crop=crop,
            year=year,
            leaves=leaves,
        )
    return say("To give back what the {year} harvest of {crop} takes off", crop=crop, year=year)


def _demand(said: _Said) -> str:
    """Return what a crop must find."""
    crop, year, target_yield = said["crop"], said["year"], said["target_yield"]
    if said.has("protein_percent"):
        return say(
            "What {crop} of {year} must find for {target_yield} t/ha at {protein}% protein",
            crop=crop, year=year, target_yield=target_yield, protein=said["protein_percent"],
        )  # fmt: skip
    return say(
        "What {crop} of {year} must find for {target_yield} t/ha", crop=crop, year=year, target_yield=target_yield
    )


def _legume_credit(said: _Said) -> str:
    """Return what a legume still adds."""
    return say(
        "What the {year} crop of {crop} still adds to it, {per_unit} kg/ha for each of {target_yield} t/ha of grain: "
        "{share}% of the fallow came after the sampling",
        crop=said["crop"], year=said["year"], per_unit=said["per_unit"], target_yield=said["target_yield"],
        share=said["to_come_percent"],
    )  # fmt: skip


def _mineralised(said: _Said) -> str:
    """Return what the soil sets free."""
    return say(
        "What the soil sets free in the season, from {carbon}% organic carbon and {rain} mm of rain",
        carbon=said["organic_carbon"],
        rain=said["rain_mm"],
    )


def _already_applied(said: _Said) -> str:
    """Return what was spread since the sampling."""
    rate, product = said["rate_kg_ha"], said["product"]
    if said.has("day"):
        return say(
            "Spread since the sampling on {day}: {rate} kg/ha of {product}", day=said["day"], rate=rate, product=product
        )
    return say("Spread since the sampling: {rate} kg/ha of {product}", rate=rate, product=product)


def _planned(said: _Said) -> str:
    """Return what is planned to be spread."""
    rate, product = said["rate_kg_ha"], said["product"]
    if said.has("day"):
        return say(
            "Planned to be spread on {day}: {rate} kg/ha of {product}", day=said["day"], rate=rate, product=product
        )
    return say("Planned to be spread: {rate} kg/ha of {product}", rate=rate, product=product)


_STEPS: Mapping[str, _Words] = {
    "lift-topsoil": _lift_topsoil,
    "lift-below": _lift_below,
    "target-met": _target_met,
    "too-little-to-spread": lambda said: say(
        "Less than {least} t/ha is not worth spreading, so it is left", least=said["least"]
    ),
    "acid-of-produce": lambda said: say(
        "To make good the acid of what leaves the field: {produce}", produce=said["produce"]
    ),
    "acid-of-nitrogen": lambda said: say(
        "To make good the acid of nitrogen fertiliser: {fertilisers}", fertilisers=said["fertilisers"]
    ),
    "sodium-to-change": lambda said: say(
        "To bring the sodium share in {layer} from {share}% to {target}%",
        layer=said.layer,
        share=said["share"],
        target=said["target"],
    ),
    "incomplete-exchange": lambda _said: say("More, because the exchange of sodium is never complete"),
    "demand": _demand,
    "soil-mineral-nitrogen": lambda said: say(
        "Mineral nitrogen that is in the soil already, {layer}", layer=said.layer
    ),
    "legume-credit": _legume_credit,
    "legume-in-profile": lambda said: say(
        "What {crop} of {year} left is in that already: the fallow was over when it was sampled",
        crop=said["crop"],
        year=said["year"],
    ),
    "mineralised": _mineralised,
    "already-applied": _already_applied,
    "planned": _planned,
    "not-below-nought": lambda _said: say("What is beyond the need is not carried on"),
    "index": _by_class,
    "class-rate": _by_class,
    "build-up": _build_up,
    "result-alone": _result_alone,
    "removal": _removal,
    "removal-unknown": lambda said: say(
        "What the {year} harvest of {crop} takes off is not known and not counted: {reason}",
        crop=said["crop"],
        year=said["year"],
        reason=said["reason"],
    ),
}


def _most_dressings(said: _Said) -> str:
    """Return the words of the most dressings."""
    most, one = said["dressings"], said["one_dressing"]
    if said.has("borrowed"):
        return say(
            "{dressings} dressings of at most {one} t/ha each before the soil is measured again; the figure is that of "
            "{borrowed}, for none was read for here",
            dressings=most, one=one, borrowed=said["borrowed"],
        )  # fmt: skip
    return say(
        "{dressings} dressings of at most {one} t/ha each before the soil is measured again", dressings=most, one=one
    )


def _legal(said: _Said) -> str:
    """Return the words of a legal maximum."""
    allowed = say(
        "the law allows {phosphate} kg P2O5/ha for {use} and class {class_name}, less {spread} kg/ha of phosphorus "
        "spread or planned this calendar year",
        phosphate=said["kg_p2o5_ha"], use=said["use"], class_name=said["index"], spread=said["spread_already"],
    )  # fmt: skip
    return f"{allowed}. {said['caution']}".rstrip(". ")


_CAPS: Mapping[str, _Words] = {
    "most-dressings": _most_dressings,
    "above-limit": lambda said: say(
        "the result of {value} lies above the guideline's upper limit of {limit}",
        value=said.with_unit("value"),
        limit=said.with_unit("limit"),
    ),
    "clearly-above-line": lambda said: say(
        "the result of {value} is clearly above its line of {line}, and no source says that a harvest is to be made "
        "good there",
        value=said.with_unit("value"),
        line=said.with_unit("line"),
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
    if words is None:
        return say("the practice's own maximum ({name})", name=plain(rule))
    return words(_Said(facts, language))


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
