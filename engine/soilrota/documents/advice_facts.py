"""Figures of workings and maxima as they are read: a name in plain words, the number in the client's form, its unit."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import date

from soilrota.documents.dates import joined, locale_of, long_day, number
from soilrota.documents.words import LAND_USES
from soilrota.model.findings import Fact
from soilrota.quantities import all_codes, analysis_name

DECIMALS = 4
_TONNES, _KILOGRAMS, _PERCENT, _CM = "t/ha", "kg/ha", "%", "cm"
#: What a figure is called, and its unit; a unit `{unit}` is the one that stands beside it.
_NAMES: Mapping[str, tuple[str, str]] = {
    "acidity": ("acidity", "cmol(+)/kg"),
    "act_below": ("liming starts below pH", ""),
    "analysis": ("analysis", ""),
    "below": ("chance of lying under the line", ""),
    "between": ("taken between the textures", ""),
    "borrowed": ("taken over from", ""),
    "bottom_cm": ("down to", _CM),
    "buffer_ph": ("pH in the buffer", ""),
    "bulk_density": ("bulk density", "g/cm³"),
    "bulk_density_from": ("bulk density comes from", ""),
    "bulk_density_high": ("bulk density at most", "g/cm³"),
    "bulk_density_low": ("bulk density at least", "g/cm³"),
    "bulk_density_source": ("bulk density after", ""),
    "capacity": ("exchange capacity", "cmol(+)/kg"),
    "class": ("class", ""),
    "content_percent": ("content", _PERCENT),
    "crop": ("crop", ""),
    "day": ("day", ""),
    "depth_cm": ("thickness of the layer", _CM),
    "doubt_high": ("that may be as much as so many times", ""),
    "doubt_low": ("that may be as little as so many times", ""),
    "dressings": ("dressings at most", ""),
    "exchange_capacity": ("exchange capacity", "cmol(+)/kg"),
    "factor": ("lime for one pH unit", _TONNES),
    "fertilisers": ("fertilisers", ""),
    "grain_nitrogen": ("nitrogen in the grain", _KILOGRAMS),
    "found_percent": ("of that a crop finds in its year", _PERCENT),
    "gravel_from": ("gravel is", ""),
    "gravel_percent": ("gravel", _PERCENT),
    "harvests": ("harvests that it is for", ""),
    "high": ("at most so many times", ""),
    "holding": ("kind of holding", ""),
    "index": ("class", ""),
    "kg_p2o5_ha": ("phosphate allowed", "kg P2O5/ha"),
    "leached": ("lime used up where all nitrate is leached", _KILOGRAMS),
    "least": ("least that is worth spreading", _TONNES),
    "leaves": ("what leaves the field", ""),
    "limed_cm": ("depth that is limed", _CM),
    "limit": ("upper limit", "{unit}"),
    "line": ("line", "{unit}"),
    "low": ("at least so many times", ""),
    "method": ("measured as", ""),
    "more_for_carbon": ("more where organic carbon is high", _TONNES),
    "not_known": ("not known for", ""),
    "one_dressing": ("one dressing at most", _TONNES),
    "organic_carbon": ("organic carbon", _PERCENT),
    "per_unit": ("lifts the test by one", f"{_KILOGRAMS} for 1 {{unit}}"),
    "per_unit_high": ("at most", f"{_KILOGRAMS} for 1 {{unit}}"),
    "per_unit_low": ("at least", f"{_KILOGRAMS} for 1 {{unit}}"),
    "ph": ("pH", ""),
    "ph_high": ("pH may be as high as", ""),
    "ph_low": ("pH may be as low as", ""),
    "produce": ("produce", ""),
    "product": ("product", ""),
    "protein_percent": ("target protein", _PERCENT),
    "pure_share": ("pure lime in a tonne of the rule's lime", "t"),
    "rain_mm": ("rain of the growing season", "mm"),
    "rate_kg_ha": ("rate", _KILOGRAMS),
    "reason": ("reason", ""),
    "recovery": ("loss of fertiliser", ""),
    "removed": ("taken off by the harvest", _KILOGRAMS),
    "result": ("result", "{unit}"),
    "rise": ("pH units that a tonne lifts", ""),
    "rule_cm": ("the rule is for a depth of", _CM),
    "rule_unit": ("the rule counts in", ""),
    "share": ("share of it that is given back", ""),
    "sodium": ("sodium to be changed", "cmol(+)/kg"),
    "spread_already": ("spread or planned this calendar year", _KILOGRAMS),
    "taken_up": ("lime used up where plants take all of it up", _KILOGRAMS),
    "target": ("target pH", ""),
    "target_from": ("target set by", ""),
    "target_status": ("the rule's own target was", ""),
    "target_yield": ("target yield", _TONNES),
    "texture": ("texture", ""),
    "to_come_percent": ("fallow after the sampling", _PERCENT),
    "top_cm": ("from", _CM),
    "use": ("use", ""),
    "value": ("result", "{unit}"),
    "year": ("year", ""),
    "years": ("built up over years", ""),
}
#: The same where a step means something else by it.
_OF_STEP: Mapping[tuple[str, str], tuple[str, str]] = {
    ("sodium-to-change", "share"): ("sodium share", _PERCENT),
    ("sodium-to-change", "line"): ("line", _PERCENT),
    ("sodium-to-change", "target"): ("target", _PERCENT),
    ("target-met", "share"): ("sodium share", _PERCENT),
    ("incomplete-exchange", "factor"): ("times", ""),
    ("removal", "per_unit"): ("in one unit of produce", "{unit}"),
    ("legume-credit", "per_unit"): ("for one tonne of grain", _KILOGRAMS),
    ("demand", "per_unit"): ("for one unit of it", _KILOGRAMS),
    ("demand", "per_unit_low"): ("at least", _KILOGRAMS),
    ("demand", "per_unit_high"): ("at most", _KILOGRAMS),
    ("clearly-above-line", "value"): ("result", ""),
    ("clearly-above-line", "line"): ("line", ""),
}
#: Names for the program alone, or said by the source or the unit beside them.
_HIDDEN = frozenset({"rule", "target_source", "edition", "dressing", "unit", "caution"})
_WORDS: Mapping[str, str] = {
    "in": "is in the figure",
    "not-in": "is not in the figure",
    "guideline": "the rule of the region",
    "client": "the client's own target",
    "crop-not-in-edition": "the tables do not list this crop",
    "not-in-edition": "the tables print no figure of this nutrient for the crop",
    "no-target-yield": "the cropping plan has no target yield",
    "measured": "a measurement",
    "organic-matter": "the organic matter",
    "taken-as-none": "not stated and taken as none",
    "verified": "read in its source",
    "unverified": "unverified: not read in its source",
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
            yield f"{words}: {figure}{'' if unit == '%' else ' ' if unit else ''}{unit}"


def _named(rule: str, name: str, facts: Mapping[str, Fact]) -> tuple[str, str]:
    """Return what a figure is called, and its unit."""
    beside = str(facts.get("unit", ""))
    if rule == "target-met" and "share" in facts and name in {"line", "target"}:
        return name, _PERCENT
    if name == "target_yield" and beside.endswith("/kL"):
        return "target yield", "kL/ha"
    words, unit = _OF_STEP.get((rule, name)) or _NAMES.get(name) or (plain(name), "")
    return words, unit.replace("{unit}", beside).removesuffix(" ")


def fact_words(name: str, value: Fact, language: str) -> str:
    """Return one figure as it is read; ids as plain words.

    >>> fact_words("texture", "clay-loam", "en-AU"), fact_words("per_unit", 3.0, "en-AU")
    ('clay loam', '3')
    """
    special = _SPECIAL.get(name)
    if special is not None:
        return special(str(value))
    if isinstance(value, tuple):
        return joined([plain(str(one)) for one in value])
    if isinstance(value, date):
        return long_day(value, language)
    if isinstance(value, int | float):
        return number(value, language, DECIMALS)
    return _WORDS.get(value) or LAND_USES.get(value) or plain(value)


def is_named(rule: str, name: str) -> bool:
    """Return whether a figure of a step or maximum has a name in plain words, or is none of a reader's business."""
    return name in _HIDDEN or (rule, name) in _OF_STEP or name in _NAMES


def plain(word: str) -> str:
    """Return an id as words.

    >>> plain("index-2-minus"), plain("spread_already")
    ('index 2 minus', 'spread already')
    """
    return word.replace("-", " ").replace("_", " ")


def _analysis(code: str) -> str:
    """Return what an analysis is called."""
    return analysis_name(code) if code in all_codes() else plain(code.replace(".", " by "))


def _ph_method(method: str) -> str:
    """Return what pH by a method is called."""
    return _analysis(f"ph.{method}")


def _region(code: str) -> str:
    """Return a country, with the code of a part of it in brackets."""
    country, _, part = code.partition("-")
    name = locale_of("en").territories.get(country, country)
    return f"{name} ({part})" if part else name


#: Figures whose text is no word of the data, or a number that is no quantity.
_SPECIAL: Mapping[str, Callable[[str], str]] = {
    "analysis": _analysis,
    "method": _ph_method,
    "year": str,
    "product": str,
    "bulk_density_source": str,
    "rule_unit": str,
    "region": _region,
    "borrowed": _region,
}
