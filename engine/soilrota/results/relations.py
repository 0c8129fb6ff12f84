"""What the values of one bag say of each other, and each against the limits of the glossary.

Every relation holds for all that a value may be, or it is not a finding: each value comes once into each difference,
sum and ratio, so their ends are exact. Figures, sources and grades stand in `guidelines/plausibility.yaml`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from soilrota.guidelines.plausibility import check_of, chloride_conductivity
from soilrota.model.findings import Fact
from soilrota.model.result_findings import ResultFinding, ResultRule
from soilrota.quantities import method
from soilrota.results.bags import BagResults, Between, between, code_of

_WATER, _CACL2 = "ph.water", "ph.cacl2"
_BASES = ("calcium.exchangeable", "magnesium.exchangeable", "potassium.exchangeable", "sodium.exchangeable")
_SODIUM, _ALUMINIUM, _HYDROGEN = "sodium.exchangeable", "aluminium.exchangeable", "hydrogen.exchangeable"
_ACIDITY = "exchange-acidity.kcl"
_ECEC, _CEC = "exchange-capacity.effective", "exchange-capacity.ammonium-acetate"
_CONDUCTIVITY, _CHLORIDE = "conductivity.ec-1-5", "chloride.water-1-5"
_EXTRACTABLE_P = ("phosphorus.colwell", "phosphorus.olsen", "phosphorus.bray-1", "phosphorus.mehlich-3")
_TOTAL_P = "phosphorus.total"
_NITRATE, _AMMONIUM = "nitrate-nitrogen.kcl", "ammonium-nitrogen.kcl"
_COMBUSTION_N, _KJELDAHL_N = "nitrogen.dry-combustion", "nitrogen.kjeldahl"
_CARBON = ("organic-carbon.dry-combustion", "organic-carbon.walkley-black")
_MATTER = "organic-matter.loss-on-ignition"
_MG_KG_IN_PERCENT = 10_000.0
_DIGITS = 9  # what binary arithmetic makes up lies behind them: 5.6 - 5.3 is 0.3


def check_bag(bag: BagResults) -> Iterator[ResultFinding]:
    """Yield what is odd about the values of one bag by themselves."""
    values = _Values(bag, {code: between(result) for code, result in bag.results.items()})
    yield from _hard_limits(bag)
    for check in (
        _ph_pair,
        _cation_sum,
        _bases_above_cec,
        _sodium_share,
        _chloride_conductivity,
        _above_total,
        _carbon_nitrogen,
        _aluminium_ph,
        _carbon_range,
        _carbon_matter,
    ):
        yield from check(values)


def _hard_limits(bag: BagResults) -> Iterator[ResultFinding]:
    """Yield values that no soil has."""
    for code, result in bag.results.items():
        known = method(result.analyte, result.method)
        if known is not None and not known.low <= result.value <= known.high:
            facts: dict[str, Fact] = {
                "analysis": code_of(result),
                "value": result.value,
                "low": known.low,
                "high": known.high,
            }
            grade = check_of(ResultRule.HARD_LIMIT).grade
            yield ResultFinding(bag.key, ResultRule.HARD_LIMIT, grade, (code,), facts, result.place)


@dataclass(frozen=True, slots=True)
class _Values:
    """The values of a bag, each with all that it may be."""

    bag: BagResults
    of: Mapping[str, Between]

    def has(self, *codes: str) -> bool:
        """Return whether all of these were measured."""
        return all(code in self.of for code in codes)

    def first(self, *codes: str) -> str:
        """Return the first of these that was measured; empty where none was."""
        return next((code for code in codes if code in self.of), "")

    def total(self, *codes: str) -> Between:
        """Return the sum of those that were measured."""
        return sum((self.of[code] for code in codes if code in self.of), Between(0.0, 0.0))

    def said(self, code: str) -> float | str:
        """Return a value as a fact; a text with its sign where it is below or above what the laboratory can tell."""
        result = self.bag.results[code]
        return f"{result.qualifier}{result.value:.10g}" if result.qualifier else result.value

    def finding(self, rule: ResultRule, case: str, codes: tuple[str, ...], facts: Mapping[str, Fact]) -> ResultFinding:
        """Return a finding about these analyses."""
        place = self.bag.results[codes[0]].place
        return ResultFinding(self.bag.key, rule, check_of(rule, case).grade, codes, facts, place)


def _figure(rule: ResultRule, case: str, name: str) -> float:
    """Return a figure of the table."""
    return check_of(rule, case).figures[name]


def _ph_pair(values: _Values) -> Iterator[ResultFinding]:
    """Of two readings of pH that in water is the higher of the two, by what soils usually have."""
    rule = ResultRule.PH_PAIR
    if not values.has(_WATER, _CACL2):
        return
    gap = _rounded(values.of[_WATER] - values.of[_CACL2])
    codes: tuple[str, ...] = (_WATER, _CACL2)
    if gap.high < _figure(rule, "mirrored", "below"):
        case, nearest = "mirrored", gap.high
    elif gap.high < _figure(rule, "reversed", "below"):
        case, nearest = "reversed", gap.high
    elif gap.low > _figure(rule, "wide", "above"):
        case, nearest = "wide", gap.low
    elif gap.high < _figure(rule, "narrow", "below") and _is_fresh(values):
        case, nearest, codes = "narrow", gap.high, (_WATER, _CACL2, _CONDUCTIVITY)
    else:
        return
    facts: dict[str, Fact] = {
        "water": values.said(_WATER),
        "cacl2": values.said(_CACL2),
        **_end("difference", gap, nearest),
    }
    if case == "narrow":
        facts["conductivity"] = values.said(_CONDUCTIVITY)
    yield values.finding(rule, case, codes, facts)


def _is_fresh(values: _Values) -> bool:
    """Return whether the soil is certainly not salty."""
    limit = _figure(ResultRule.PH_PAIR, "narrow", "conductivity_below")
    return values.has(_CONDUCTIVITY) and values.of[_CONDUCTIVITY].high < limit


def _cation_sum(values: _Values) -> Iterator[ResultFinding]:
    """The effective capacity is the sum of its cations; a sum that lacks some is only ever too large."""
    rule, case = ResultRule.CATION_SUM, "effective"
    acids = (_ACIDITY,) if values.has(_ACIDITY) else (_ALUMINIUM, _HYDROGEN)
    codes = tuple(code for code in (*_BASES, *acids) if code in values.of)
    if not codes or not values.has(_ECEC):
        return
    added, capacity = values.total(*codes), values.of[_ECEC]
    share, least = _figure(rule, case, "share"), _figure(rule, case, "least")
    too_large = _rounded(added).low > _with_gap(capacity.high, share, least)
    too_small = _is_whole(values) and _rounded(added).high < _with_gap(capacity.low, -share, -least)
    if too_large or too_small:
        facts: dict[str, Fact] = {
            **_end("sum", added, added.low if too_large else added.high),
            "capacity": values.said(_ECEC),
        }
        yield values.finding(rule, case, (*codes, _ECEC), facts)


def _is_whole(values: _Values) -> bool:
    """Return whether all cations are known: the bases, and the acid ones or a pH at which there are none."""
    limit = _figure(ResultRule.CATION_SUM, "effective", "acid_below")
    no_acid = values.has(_CACL2) and values.of[_CACL2].low > limit
    return values.has(*_BASES) and (bool(values.first(_ACIDITY, _ALUMINIUM)) or no_acid)


def _with_gap(capacity: float, share: float, least: float) -> float:
    """Return a capacity moved by the larger of a share of it and a least gap."""
    return _round(capacity + max(share * capacity, least, key=abs))


def _bases_above_cec(values: _Values) -> Iterator[ResultFinding]:
    """Bases beyond the capacity come from soluble salts."""
    rule, case = ResultRule.CATION_SUM, "bases-above-cec"
    codes = tuple(code for code in _BASES if code in values.of)
    if not codes or not values.has(_CEC):
        return
    added = values.total(*codes)
    figures = check_of(rule, case).figures
    if _rounded(added).low > _with_gap(values.of[_CEC].high, figures["share"], figures["least"]):
        facts: dict[str, Fact] = {**_end("sum", added, added.low), "capacity": values.said(_CEC)}
        yield values.finding(rule, case, (*codes, _CEC), facts)


def _sodium_share(values: _Values) -> Iterator[ResultFinding]:
    """Sodium is a part of the exchange capacity."""
    rule, capacity = ResultRule.SODIUM_SHARE, values.first(_ECEC, _CEC)
    if not capacity or not values.has(_SODIUM):
        return
    share = _rounded((values.of[_SODIUM] / values.of[capacity]).times(100))
    for case in ("impossible", "high"):
        if share.low > _figure(rule, case, "above"):
            facts: dict[str, Fact] = {
                **_end("share", share, share.low),
                "sodium": values.said(_SODIUM),
                "capacity": values.said(capacity),
            }
            yield values.finding(rule, case, (_SODIUM, capacity), facts)
            return


def _chloride_conductivity(values: _Values) -> Iterator[ResultFinding]:
    """Chloride conducts, and whatever else is in the extract only adds to it."""
    rule = ResultRule.CHLORIDE_CONDUCTIVITY
    if not values.has(_CONDUCTIVITY, _CHLORIDE):
        return
    chloride, conductivity = values.of[_CHLORIDE].low, values.of[_CONDUCTIVITY].high
    least = chloride_conductivity(chloride)
    for case in ("impossible", "low"):
        figures = check_of(rule, case).figures
        if chloride >= figures["least_chloride"] and conductivity < figures["share"] * least:
            facts: dict[str, Fact] = {
                "conductivity": values.said(_CONDUCTIVITY),
                "chloride": values.said(_CHLORIDE),
                "least": _round(least),
            }
            yield values.finding(rule, case, (_CONDUCTIVITY, _CHLORIDE), facts)
            return


def _above_total(values: _Values) -> Iterator[ResultFinding]:
    """What is extracted is part of the total; Kjeldahl nitrogen does not hold the nitrate."""
    pairs: list[tuple[tuple[str, ...], str, float]]
    pairs = [((code,), _TOTAL_P, 1.0) for code in _EXTRACTABLE_P]
    pairs += [((_NITRATE, _AMMONIUM), _COMBUSTION_N, _MG_KG_IN_PERCENT), ((_AMMONIUM,), _KJELDAHL_N, _MG_KG_IN_PERCENT)]
    for wanted, total, factor in pairs:
        codes = tuple(code for code in wanted if code in values.of)
        if not codes or not values.has(total):
            continue
        extractable, whole = values.total(*codes), values.of[total].times(factor)
        if _rounded(extractable).low > _round(whole.high):
            facts: dict[str, Fact] = {
                "analysis": codes[0],
                **_end("extractable", extractable, extractable.low),
                "total": _round(whole.high),
            }
            yield values.finding(ResultRule.ABOVE_TOTAL, "", (*codes, total), facts)


def _carbon_nitrogen(values: _Values) -> Iterator[ResultFinding]:
    """Carbon and nitrogen of soil stand in a ratio that varies little."""
    rule = ResultRule.CARBON_NITROGEN
    carbon, nitrogen = values.first(*_CARBON), values.first(_COMBUSTION_N, _KJELDAHL_N)
    if not carbon or not nitrogen:
        return
    ratio = _rounded(values.of[carbon] / values.of[nitrogen])
    least = _figure(rule, "low", "below_subsoil" if values.bag.key.top_cm > 0 else "below")
    if ratio.high < least:
        yield values.finding(rule, "low", (carbon, nitrogen), {**_end("ratio", ratio, ratio.high), "side": "low"})
    elif ratio.low > _figure(rule, "high", "above"):
        yield values.finding(rule, "high", (carbon, nitrogen), {**_end("ratio", ratio, ratio.low), "side": "high"})


def _aluminium_ph(values: _Values) -> Iterator[ResultFinding]:
    """Soil that is not acid has next to no exchangeable aluminium."""
    if not values.has(_ALUMINIUM, _CACL2):
        return
    figures = check_of(ResultRule.ALUMINIUM_PH).figures
    if values.of[_CACL2].low > figures["ph_above"] and values.of[_ALUMINIUM].low > figures["aluminium_above"]:
        facts: dict[str, Fact] = {"aluminium": values.said(_ALUMINIUM), "ph": values.said(_CACL2)}
        yield values.finding(ResultRule.ALUMINIUM_PH, "", (_ALUMINIUM, _CACL2), facts)


def _carbon_range(values: _Values) -> Iterator[ResultFinding]:
    """Soils mostly hold some carbon, and not much."""
    rule, code = ResultRule.CARBON_RANGE, values.first(*_CARBON)
    if not code:
        return
    facts: dict[str, Fact] = {"analysis": code, "value": values.said(code)}
    if values.of[code].high < _figure(rule, "low", "below"):
        yield values.finding(rule, "low", (code,), {**facts, "side": "low"})
    elif values.of[code].low > _figure(rule, "high", "above"):
        yield values.finding(rule, "high", (code,), {**facts, "side": "high"})


def _carbon_matter(values: _Values) -> Iterator[ResultFinding]:
    """Organic carbon is a part of the organic matter, and not a small one."""
    rule, carbon = ResultRule.CARBON_MATTER, values.first(*_CARBON)
    if not carbon or not values.has(_MATTER):
        return
    ratio = _rounded(values.of[_MATTER] / values.of[carbon])
    if ratio.high < _figure(rule, "impossible", "below"):
        yield values.finding(rule, "impossible", (_MATTER, carbon), {**_end("ratio", ratio, ratio.high), "side": "low"})
    elif ratio.low > _figure(rule, "high", "above"):
        yield values.finding(rule, "high", (_MATTER, carbon), {**_end("ratio", ratio, ratio.low), "side": "high"})


def _end(name: str, value: Between, end: float) -> dict[str, Fact]:
    """Return the end of a value that is nearest to what soils have, and which end it is where there are two."""
    facts: dict[str, Fact] = {name: _round(end)}
    if not value.is_plain:
        facts["bound"] = "least" if end == value.low else "most"
    return facts


def _rounded(value: Between) -> Between:
    """Return both ends without the digits that binary arithmetic makes up."""
    return Between(_round(value.low), _round(value.high))


def _round(value: float) -> float:
    """Return a number without the digits that binary arithmetic makes up."""
    return round(value, _DIGITS)
