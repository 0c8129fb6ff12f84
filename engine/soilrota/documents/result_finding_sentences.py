"""Findings about results as sentences: one a finding, numbers in the client's form, odds in words."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, field
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from babel.numbers import format_decimal

from soilrota.documents.dates import counted, joined, locale_of, long_day, number
from soilrota.documents.protocols import depth_words
from soilrota.model.client import Client
from soilrota.model.result_findings import Grade, ResultFinding, ResultRule
from soilrota.model.results import Result
from soilrota.quantities import analysis_name, method, split_code

_WAITS = " The results wait until somebody accepts them with a reason."
_STANDS = " The results are in doubt until somebody accepts them with a reason."
_REFUSED = " It cannot be accepted: the value, its unit or its method must be corrected."
_BOUNDS = {"least": "at least ", "most": "at most "}
_MOST_DECIMALS = 4
_MANY = 1_000_000
_FULL_STOPS = ".!?"


@dataclass(frozen=True, slots=True)
class Names:
    """What people call things: zones by `farm/zone`, people and check materials by id."""

    zones: Mapping[str, str] = field(default_factory=dict)
    people: Mapping[str, str] = field(default_factory=dict)
    materials: Mapping[str, str] = field(default_factory=dict)

    @classmethod
    def of(cls, client: Client) -> Names:
        """Return the names that a client and its practice use, the farm beside the zone where there are several."""
        several = len(client.farms) > 1
        return cls(
            zones={
                f"{farm.id}/{zone.id}": f"{zone.name}, {farm.name}" if several else zone.name
                for farm in client.farms
                for zone in farm.zones
            },
            people={person.id: person.name for person in client.practice.people.values()},
            materials={material.id: material.name for material in client.practice.check_materials.values()},
        )


_NO_NAMES = Names()


def result_finding_sentence(
    finding: ResultFinding, language: str, names: Names = _NO_NAMES, *, is_recorded: bool = False
) -> str:
    """Return one finding as sentences: which sample, what was found, whether it waits, and what a person said of it.

    Args:
        finding: the finding.
        language: language tag of the client, for instance `en-AU`.
        names: what people call zones, people and check materials; an id that is not there is written as words.
        is_recorded: whether the results stand in the records already, so that they are in doubt rather than wait.
    """
    said = _Said(finding, language, names)
    words = _SENTENCES[finding.rule](said)
    unless_accepted = _STANDS if is_recorded else _WAITS
    waits = _REFUSED if finding.rule is ResultRule.HARD_LIMIT else unless_accepted if finding.bars else ""
    return f"About {said.sample}: {words}{waits}{said.accepted}"


def sentences_of_results(
    findings: Iterable[ResultFinding], client: Client, results: Collection[Result]
) -> tuple[str, ...]:
    """Return the findings about some recorded results, the latest sample first, each sentence once."""
    chosen = [finding for finding in findings if any(finding.speaks_of(result) for result in results)]
    chosen.sort(key=lambda finding: finding.key.sampled, reverse=True)
    names = Names.of(client)
    said = (result_finding_sentence(finding, client.language, names, is_recorded=True) for finding in chosen)
    return tuple(dict.fromkeys(said))


class _Said:
    """The facts of a finding, in the client's form."""

    def __init__(self, finding: ResultFinding, language: str, names: Names) -> None:
        self.finding = finding
        self.facts: dict[str, Any] = dict(finding.facts)
        self.language = language
        self.names = names

    @property
    def sample(self) -> str:
        """Which sample: zone, layer, day, bag."""
        key = self.finding.key
        depth = depth_words(key.top_cm, key.bottom_cm, self.language)
        zone = self.zone(f"{key.farm}/{key.zone}")
        bag = f", bag {key.bag}" if key.bag else ""
        return f"the sample of {zone}, {depth}, of {long_day(key.sampled, self.language)}{bag}"

    @property
    def accepted(self) -> str:
        """What a person said of it; empty where nobody did."""
        word = self.finding.accepted
        if word is None:
            return ""
        stop = "" if word.reason[-1:] in _FULL_STOPS else "."
        return f" Accepted by {self.names.people.get(word.by) or _as_words(word.by).title()}: {word.reason}{stop}"

    def zone(self, name: str) -> str:
        """Return what people call a zone that is named as `farm/zone`."""
        farm, _, zone = name.partition("/")
        return self.names.zones.get(name) or f"{_as_words(zone)} ({_as_words(farm)})"

    def value(self, name: str, code: str) -> str:
        """Return a fact that is a value of an analysis, with its unit and no decimal of the laboratory lost."""
        text = str(self.facts[name])
        side = {"<": "less than ", ">": "more than "}.get(text[:1], "")
        value = float(text[1:] if side else text)
        own = -int(Decimal(repr(value)).normalize().as_tuple().exponent)
        return side + self.amount(value, code, min(own, _MOST_DECIMALS))

    def amount(self, value: float, code: str, least_decimals: int = 0) -> str:
        """Return a number with the decimals and the unit of an analysis; pH and an index have none."""
        known = method(*split_code(code))
        unit = known.unit if known else ""
        decimals = max(known.decimals if known else 2, least_decimals)
        pattern = "#,##0." + "0" * decimals if decimals else "#,##0"
        rounded = Decimal(repr(value)).quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_HALF_UP)
        shown = str(format_decimal(rounded, format=pattern, locale=locale_of(self.language)))
        return shown if unit in {"pH", "index", ""} else f"{shown} {unit}"

    @property
    def bound(self) -> str:
        """What stands before a figure of which only one end is certain; empty where it is known."""
        return _BOUNDS.get(str(self.facts.get("bound", "")), "")

    def plain(self, name: str, decimals: int) -> str:
        """Return a fact that is a number without a unit."""
        return number(float(self.facts[name]), self.language, decimals)


def _as_words(name: str) -> str:
    """Return an id as words.

    >>> _as_words("river-flat")
    'river flat'
    """
    return name.replace("-", " ")


def odds_words(odds: float, language: str) -> str:
    """Return odds in words, rounded to two digits.

    >>> odds_words(40, "en-GB"), odds_words(1.4, "en-GB"), odds_words(23456, "en-GB"), odds_words(2e6, "en-GB")
    ('about 40 to 1', 'about 1.4 to 1', 'about 23,000 to 1', 'more than a million to 1')
    """
    if odds >= _MANY:
        return "more than a million to 1"
    rounded = float(f"{odds:.2g}")
    return f"about {number(rounded, language)} to 1"


def _hard_limit(said: _Said) -> str:
    code = str(said.facts["analysis"])
    low, high = said.amount(float(said.facts["low"]), code), said.amount(float(said.facts["high"]), code)
    return f"{analysis_name(code)} of {said.value('value', code)} is outside {low} to {high}, so no soil has it."


def _ph_pair(said: _Said) -> str:
    water, cacl2 = said.value("water", "ph.water"), said.value("cacl2", "ph.cacl2")
    readings = f"pH is {water} in water and {cacl2} in CaCl2"
    if said.finding.grade is Grade.SET_ASIDE:
        return f"{readings}; the two columns look mistaken for each other."
    if float(said.facts["difference"]) < 0:
        return f"{readings}; mostly that in water is the higher one."
    gap = number(float(said.facts["difference"]), said.language)
    if "conductivity" in said.facts:
        salt = said.value("conductivity", "conductivity.ec-1-5")
        return (
            f"{readings}, {said.bound}{gap} apart; that is usual in salty soil, and at {salt} this soil is not salty."
        )
    return f"{readings}, {said.bound}{gap} apart; they seldom lie so far from each other."


def _cation_sum(said: _Said) -> str:
    *cations, capacity = said.finding.analyses
    summed = said.amount(float(said.facts["sum"]), cations[0] if len(cations) == 1 else capacity)
    count = counted(len(cations), "cation", "cations")
    words = (
        f"the {count} that were reported add up to {said.bound}{summed}"
        if len(cations) > 1
        else f"{analysis_name(cations[0])} is {said.bound}{summed}"
    )
    of = said.value("capacity", capacity)
    if capacity == "exchange-capacity.effective":
        return f"{words}, and the exchange capacity is given as {of}; it should be the sum of all of them."
    return f"{words}, more than the exchange capacity of {of}; soluble salts or carbonate count with them."


def _sodium_share(said: _Said) -> str:
    comes = f"sodium comes to {said.bound}{said.plain('share', 0)} % of the exchange capacity"
    if said.finding.grade is Grade.SET_ASIDE:
        return f"{comes}; a part cannot be larger than the whole."
    return f"{comes}: the soil is strongly sodic, or salt was not washed out before it was measured."


def _chloride_conductivity(said: _Said) -> str:
    salt, chloride = said.value("conductivity", "conductivity.ec-1-5"), said.value("chloride", "chloride.water-1-5")
    least = said.amount(float(said.facts["least"]), "conductivity.ec-1-5")
    return f"the conductivity is {salt}, and the chloride of {chloride} alone would give about {least}."


def _above_total(said: _Said) -> str:
    code, total = str(said.facts["analysis"]), said.finding.analyses[-1]
    parts = [analysis_name(one) for one in said.finding.analyses[:-1]]
    comes = "come" if len(parts) > 1 else "comes"
    part, whole = said.amount(float(said.facts["extractable"]), code), said.amount(float(said.facts["total"]), code)
    return f"{joined(parts)} {comes} to {said.bound}{part}, more than {analysis_name(total)}, {whole}, which holds it."


def _carbon_nitrogen(said: _Said) -> str:
    ratio = f"there is {said.bound}{said.plain('ratio', 1)} times as much carbon as nitrogen"
    if said.facts["side"] == "low":
        return f"{ratio}; soil mostly has more carbon for its nitrogen."
    return f"{ratio}; soil mostly has more nitrogen for its carbon."


def _aluminium_ph(said: _Said) -> str:
    aluminium, ph = said.value("aluminium", "aluminium.exchangeable"), said.value("ph", "ph.cacl2")
    return f"exchangeable aluminium is {aluminium} at pH (CaCl2) {ph}; soil that is not acid has next to none."


def _carbon_range(said: _Said) -> str:
    code = str(said.facts["analysis"])
    carbon = f"{analysis_name(code)} is {said.value('value', code)}"
    if said.facts["side"] == "low":
        return f"{carbon}; only desert soil and deep subsoil hold so little."
    return f"{carbon}; only peat and alpine soil hold so much."


def _carbon_matter(said: _Said) -> str:
    ratio = f"organic matter is {said.bound}{said.plain('ratio', 2)} times organic carbon"
    if said.facts["side"] == "low":
        return f"{ratio}; carbon is a part of it, so it should be more than that."
    return f"{ratio}; water from clay may have been counted with it."


def _history(said: _Said) -> str:
    code = str(said.facts["analysis"])
    usual, spread = said.amount(float(said.facts["usual"]), code), said.amount(float(said.facts["spread"]), code)
    samplings = counted(int(said.facts["years"]), "earlier sampling", "earlier samplings")
    value = said.value("value", code)
    return f"{analysis_name(code)} of {value} is far from what {samplings} gave: {usual}, give or take {spread}."


def _swapped(said: _Said) -> str:
    other, odds = said.zone(str(said.facts["other"])), odds_words(float(said.facts["odds"]), said.language)
    analyses = joined([analysis_name(code) for code in said.finding.analyses])
    return f"its bag looks swapped with that of {other}; the odds are {odds}, judged by {analyses}."


def _check_sample(said: _Said) -> str:
    material = str(said.facts["material"])
    name = said.names.materials.get(material) or _as_words(material)
    day = long_day(said.facts["day"], said.language)
    analysis = analysis_name(str(said.facts["analysis"]))
    side = "too high" if float(said.facts["z"]) > 0 else "too low"
    off = f"the laboratory measured the check sample {name}, reported on {day}, {side} in {analysis}"
    return f"{off}, so this value may be {side} as well."


_SENTENCES: dict[ResultRule, Callable[[_Said], str]] = {
    ResultRule.HARD_LIMIT: _hard_limit,
    ResultRule.PH_PAIR: _ph_pair,
    ResultRule.CATION_SUM: _cation_sum,
    ResultRule.SODIUM_SHARE: _sodium_share,
    ResultRule.CHLORIDE_CONDUCTIVITY: _chloride_conductivity,
    ResultRule.ABOVE_TOTAL: _above_total,
    ResultRule.CARBON_NITROGEN: _carbon_nitrogen,
    ResultRule.ALUMINIUM_PH: _aluminium_ph,
    ResultRule.CARBON_RANGE: _carbon_range,
    ResultRule.CARBON_MATTER: _carbon_matter,
    ResultRule.HISTORY: _history,
    ResultRule.SWAPPED: _swapped,
    ResultRule.CHECK_SAMPLE: _check_sample,
}
