"""Figures of workings and maxima as they are read: a name in plain words, the number in the client's form, its unit."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from datetime import date

from soilrota.documents.dates import digits, joined, locale_of, long_day, number, with_unit
from soilrota.documents.id_words import class_words, ground_words, method_words, plain, spaced
from soilrota.language import marked, marked_as, say, say_as, spoken
from soilrota.model.findings import Fact
from soilrota.quantities import all_codes, analysis_name

DECIMALS = 4
_TONNES, _KILOGRAMS, _PERCENT, _CM = "t/ha", "kg/ha", "%", "cm"
#: The unit that stands beside a figure, and so many kilograms for one of it.
_BESIDE, _FOR_ONE = "{unit}", marked("kg/ha for 1 {unit}")
#: What a figure is called, and its unit.
_NAMES: Mapping[str, tuple[str, str]] = {
    "acidity": (marked_as("figure", "acidity"), "cmol(+)/kg"),
    "act_below": (marked_as("figure", "liming starts below pH"), ""),
    "analysis": (marked_as("figure", "analysis"), ""),
    "below": (marked_as("figure", "chance of lying under the line"), ""),
    "between": (marked_as("figure", "taken between the textures"), ""),
    "borrowed": (marked_as("figure", "taken over from"), ""),
    "bottom_cm": (marked_as("figure", "down to"), _CM),
    "buffer_ph": (marked_as("figure", "pH in the buffer"), ""),
    "bulk_density": (marked_as("figure", "bulk density"), "g/cm³"),
    "bulk_density_from": (marked_as("figure", "bulk density comes from"), ""),
    "bulk_density_high": (marked_as("figure", "bulk density at most"), "g/cm³"),
    "bulk_density_low": (marked_as("figure", "bulk density at least"), "g/cm³"),
    "bulk_density_source": (marked_as("figure", "bulk density after"), ""),
    "capacity": (marked_as("figure", "exchange capacity"), "cmol(+)/kg"),
    "class": (marked_as("figure", "class"), ""),
    "content_percent": (marked_as("figure", "content"), _PERCENT),
    "crop": (marked_as("figure", "crop"), ""),
    "day": (marked_as("figure", "day"), ""),
    "depth_cm": (marked_as("figure", "thickness of the layer"), _CM),
    "doubt_high": (marked_as("figure", "that may be as much as so many times"), ""),
    "doubt_low": (marked_as("figure", "that may be as little as so many times"), ""),
    "dressings": (marked_as("figure", "dressings at most"), ""),
    "exchange_capacity": (marked_as("figure", "exchange capacity"), "cmol(+)/kg"),
    "factor": (marked_as("figure", "lime for one pH unit"), _TONNES),
    "fertilisers": (marked_as("figure", "fertilisers"), ""),
    "grain_nitrogen": (marked_as("figure", "nitrogen in the grain"), _KILOGRAMS),
    "found_percent": (marked_as("figure", "of that a crop finds in its year"), _PERCENT),
    "gravel_from": (marked_as("figure", "gravel is"), ""),
    "gravel_percent": (marked_as("figure", "gravel"), _PERCENT),
    "harvests": (marked_as("figure", "harvests that it is for"), ""),
    "high": (marked_as("figure", "at most so many times"), ""),
    "holding": (marked_as("figure", "kind of holding"), ""),
    "index": (marked_as("figure", "class"), ""),
    "kg_p2o5_ha": (marked_as("figure", "phosphate allowed"), "kg P2O5/ha"),
    "leached": (marked_as("figure", "lime used up where all nitrate is leached"), _KILOGRAMS),
    "least": (marked_as("figure", "least that is worth spreading"), _TONNES),
    "leaves": (marked_as("figure", "what leaves the field"), ""),
    "limed_cm": (marked_as("figure", "depth that is limed"), _CM),
    "limit": (marked_as("figure", "upper limit"), _BESIDE),
    "line": (marked_as("figure", "line"), _BESIDE),
    "low": (marked_as("figure", "at least so many times"), ""),
    "method": (marked_as("figure", "measured as"), ""),
    "more_for_carbon": (marked_as("figure", "more where organic carbon is high"), _TONNES),
    "not_known": (marked_as("figure", "not known for"), ""),
    "one_dressing": (marked_as("figure", "one dressing at most"), _TONNES),
    "organic_carbon": (marked_as("figure", "organic carbon"), _PERCENT),
    "per_unit": (marked_as("figure", "lifts the test by one"), _FOR_ONE),
    "per_unit_high": (marked_as("figure", "at most"), _FOR_ONE),
    "per_unit_low": (marked_as("figure", "at least"), _FOR_ONE),
    "ph": (marked_as("figure", "pH"), ""),
    "ph_high": (marked_as("figure", "pH may be as high as"), ""),
    "ph_low": (marked_as("figure", "pH may be as low as"), ""),
    "produce": (marked_as("figure", "produce"), ""),
    "product": (marked_as("figure", "product"), ""),
    "protein_percent": (marked_as("figure", "target protein"), _PERCENT),
    "pure_share": (marked_as("figure", "pure lime in a tonne of the rule's lime"), "t"),
    "rain_mm": (marked_as("figure", "rain of the growing season"), "mm"),
    "rate_kg_ha": (marked_as("figure", "rate"), _KILOGRAMS),
    "reason": (marked_as("figure", "reason"), ""),
    "recovery": (marked_as("figure", "loss of fertiliser"), ""),
    "removed": (marked_as("figure", "taken off by the harvest"), _KILOGRAMS),
    "result": (marked_as("figure", "result"), _BESIDE),
    "rise": (marked_as("figure", "pH units that a tonne lifts"), ""),
    "rule_cm": (marked_as("figure", "the rule is for a depth of"), _CM),
    "rule_unit": (marked_as("figure", "the rule counts in"), ""),
    "share": (marked_as("figure", "share of it that is given back"), ""),
    "sodium": (marked_as("figure", "sodium to be changed"), "cmol(+)/kg"),
    "spread_already": (marked_as("figure", "spread or planned this calendar year"), _KILOGRAMS),
    "taken_up": (marked_as("figure", "lime used up where plants take all of it up"), _KILOGRAMS),
    "target": (marked_as("figure", "target pH"), ""),
    "target_from": (marked_as("figure", "target set by"), ""),
    "target_status": (marked_as("figure", "the rule's own target was"), ""),
    "target_yield": (marked_as("figure", "target yield"), _TONNES),
    "texture": (marked_as("figure", "texture"), ""),
    "to_come_percent": (marked_as("figure", "fallow after the sampling"), _PERCENT),
    "top_cm": (marked_as("figure", "from"), _CM),
    "use": (marked_as("figure", "use"), ""),
    "value": (marked_as("figure", "result"), _BESIDE),
    "year": (marked_as("figure", "year"), ""),
    "years": (marked_as("figure", "built up over years"), ""),
}
#: The same where a step means something else by it.
_OF_STEP: Mapping[tuple[str, str], tuple[str, str]] = {
    ("sodium-to-change", "share"): (marked_as("figure", "sodium share"), _PERCENT),
    ("sodium-to-change", "line"): (marked_as("figure", "line"), _PERCENT),
    ("sodium-to-change", "target"): (marked_as("figure", "target"), _PERCENT),
    ("target-met", "share"): (marked_as("figure", "sodium share"), _PERCENT),
    ("incomplete-exchange", "factor"): (marked_as("figure", "times"), ""),
    ("removal", "per_unit"): (marked_as("figure", "in one unit of produce"), _BESIDE),
    ("legume-credit", "per_unit"): (marked_as("figure", "for one tonne of grain"), _KILOGRAMS),
    ("demand", "per_unit"): (marked_as("figure", "for one unit of it"), _KILOGRAMS),
    ("demand", "per_unit_low"): (marked_as("figure", "at least"), _KILOGRAMS),
    ("demand", "per_unit_high"): (marked_as("figure", "at most"), _KILOGRAMS),
    ("clearly-above-line", "value"): (marked_as("figure", "result"), ""),
    ("clearly-above-line", "line"): (marked_as("figure", "line"), ""),
}
#: Names for the program alone, or said by the source or the unit beside them.
_HIDDEN = frozenset({"rule", "target_source", "edition", "dressing", "unit", "caution"})
_WORDS: Mapping[str, str] = {
    "in": marked("is in the figure"),
    "not-in": marked("is not in the figure"),
    "guideline": marked("the rule of the region"),
    "client": marked("the client's own target"),
    "crop-not-in-edition": marked("the tables do not list this crop"),
    "not-in-edition": marked("the tables print no figure of this nutrient for the crop"),
    "no-target-yield": marked("the cropping plan has no target yield"),
    "measured": marked("a measurement"),
    "organic-matter": marked("the organic matter"),
    "taken-as-none": marked("not stated and taken as none"),
    "verified": marked("read in its source"),
    "unverified": marked("unverified: not read in its source"),
}


def fact_lines(rule: str, facts: Mapping[str, Fact], language: str) -> Iterator[str]:
    """Yield every figure that went into a step or a maximum, `name: figure unit`, in the order of the working.

    Args:
        rule: id of the step or the maximum.
        facts: its figures by name.
        language: of the client.
    """
    for name, value in facts.items():
        if name not in _HIDDEN:
            words, unit = _named(rule, name, facts)
            figure = fact_words(name, value, language)
            yield f"{words}: {with_unit(figure, unit)}"


def _named(rule: str, name: str, facts: Mapping[str, Fact]) -> tuple[str, str]:
    """Return what a figure is called, and its unit."""
    beside = str(facts.get("unit", ""))
    if rule == "target-met" and "share" in facts and name in {"line", "target"}:
        of_share, unit = _OF_STEP["sodium-to-change", name]
        return say_as("figure", of_share), unit
    if name == "target_yield" and beside.endswith("/kL"):
        return say_as("figure", _NAMES[name][0]), "kL/ha"
    known = _OF_STEP.get((rule, name)) or _NAMES.get(name)
    if known is None:
        return plain(name), ""
    words, unit = say_as("figure", known[0]), known[1]
    if unit == _FOR_ONE:
        unit = say(_FOR_ONE, unit=beside)
    return words, unit.replace(_BESIDE, beside).removesuffix(" ")


def fact_words(name: str, value: Fact, language: str) -> str:
    """Return one figure as it is read; ids as plain words.

    >>> fact_words("texture", "clay-loam", "en-AU"), fact_words("per_unit", 3.0, "en-AU")
    ('clay loam', '3')
    """
    special = _SPECIAL.get(name)
    if isinstance(value, tuple):
        return joined([(special or plain)(str(one)) for one in value])
    if special is not None:
        return special(str(value))
    if isinstance(value, date):
        return long_day(value, language)
    if isinstance(value, int | float):
        return number(value, language, DECIMALS)
    return say(_WORDS[value]) if value in _WORDS else ground_words(value)


def is_named(rule: str, name: str) -> bool:
    """Return whether a figure of a step or maximum has a name in plain words, or is none of a reader's business."""
    return name in _HIDDEN or (rule, name) in _OF_STEP or name in _NAMES


def _analysis(code: str) -> str:
    """Return what an analysis is called."""
    if code in all_codes():
        return analysis_name(code)
    analyte, by, method = code.partition(".")
    return say("{analyte} by {method}", analyte=plain(analyte), method=method_words(method)) if by else plain(code)


def _ph_method(method: str) -> str:
    """Return what pH by a method is called."""
    return _analysis(f"ph.{method}")


def _region(code: str) -> str:
    """Return a country, with the code of a part of it in brackets."""
    country, _, part = code.partition("-")
    name = locale_of(spoken().partition("-")[0]).territories.get(country, country)
    return f"{name} ({part})" if part else name


def _source(cited: str) -> str:
    """Return a citation; what stands in place of one is said."""
    return say(cited) if cited else ""


def _of_table(text: str) -> str:
    """Return words that stand in a table of the engine."""
    return spaced(say(text)) if text else ""


#: A row of the cropping plan: its year, its crop, and in brackets what is counted as its produce.
_ROW = re.compile(r"(\d+) ([^()]+?)(?: \((.+)\))?")


def _plan_row(text: str) -> str:
    """Return a row of the cropping plan.

    >>> _plan_row("2027 field peas (lupin-grain)")
    '2027 field peas (lupin grain)'
    """
    found = _ROW.fullmatch(text)
    if found is None:
        return plain(text)
    produce = f" ({plain(found[3])})" if found[3] else ""
    return f"{found[1]} {plain(found[2])}{produce}"


#: Figures whose text is no word of the data, or a number that is no quantity.
_SPECIAL: Mapping[str, Callable[[str], str]] = {
    "analysis": _analysis,
    "borrowed": _region,
    "bulk_density_source": _source,
    "caution": _of_table,
    "class": class_words,
    "fertilisers": _of_table,
    "index": class_words,
    "method": _ph_method,
    "not_known": _plan_row,
    "produce": _plan_row,
    "product": str,
    "region": _region,
    "rule_unit": str,
    "targets": digits,
    "use": _of_table,
    "year": str,
}
