"""How a region's rule reckons a season's rate of a nutrient from a result, as functions of what is in doubt.

A rate has two parts [kg/ha of the element]: what the rule adds for the soil, and how much of what the harvest takes off
is given back. Both fall, or stay, as the result rises.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from soilrota.agronomy.advice.crop_plan import Harvest
from soilrota.agronomy.advice.removal import to_element
from soilrota.agronomy.advice.spreading_cautions import SpreadingCaution
from soilrota.agronomy.critical import clean
from soilrota.agronomy.derived.intervals import Doubtful, exact
from soilrota.guidelines.cited import Cited
from soilrota.guidelines.classes import class_of, rounded
from soilrota.guidelines.crop_produce import produce_of
from soilrota.guidelines.nutrient_regions import NutrientRule, RateRule
from soilrota.guidelines.rates import index_rates, iowa_rate, tri_state_figures
from soilrota.model.advice import Input
from soilrota.model.findings import Fact
from soilrota.model.guideline import GuidelineRow
from soilrota.model.judgement import Rating, Refused, WhyNot


@dataclass(frozen=True, slots=True)
class Asked:
    """What a season's rate is asked for.

    Attributes:
        value: the result [unit of its row].
        line: its line; nought where the row has classes alone [unit of the row].
        figure: the figure of the rule.
        removal: what the harvest takes off [kg/ha].
    """

    value: float
    line: float
    figure: float
    removal: float


#: A season's rate: what the rule adds, and what is given back of the removal [kg/ha].
SeasonRate = Callable[[Asked], tuple[float, float]]

#: Covariate that the potash formula of Michigan, Ohio and Indiana follows.
_CAPACITY = "exchange-capacity"
_NO_FIGURE = exact(0.0)
_CODE_OF_RULE = {
    RateRule.INDEX: "index",
    RateRule.CLASS: "class-rate",
    RateRule.FORMULA: "build-up",
    RateRule.BUILD_UP: "build-up",
    RateRule.REMOVAL: "result-alone",
}


@dataclass(frozen=True, slots=True)
class Rate:
    """How a rule reckons.

    Attributes:
        step: id of the step that shows what the rule adds.
        seasons: a function a harvest.
        figure: the figure of the rule with its published range; nought where it has none.
        cited: where the rule comes from; None where it is what the harvest takes off alone.
        facts: figures of the working.
        cautions: ids of cautions.
    """

    step: str
    seasons: tuple[SeasonRate, ...]
    figure: Doubtful = _NO_FIGURE
    cited: Cited | None = None
    facts: Mapping[str, Fact] = field(default_factory=dict)
    cautions: tuple[str, ...] = ()


def rate_of(
    rule: NutrientRule,
    rating: Rating,
    nutrient: Input,
    *,
    harvests: tuple[Harvest, ...],
    years: int,
    editions: tuple[str, ...],
) -> Rate | Refused:
    """Return how a rule reckons the harvests that a need makes good, or why it cannot.

    Args:
        rule: the rule of the region.
        rating: what the result means.
        nutrient: of what.
        harvests: the harvests.
        years: over how many years the soil is built up [years]; later harvests get no more of it.
        editions: removal editions, which name crops.
    """
    if rule.rule is RateRule.INDEX:
        return _index(rule, rating.row, nutrient, len(harvests))
    if rule.rule is RateRule.CLASS:
        return _class(rule, rating.row, nutrient, harvests, editions)
    if rule.rule is RateRule.FORMULA:
        return _formula(rule, rating, nutrient, len(harvests), years)
    figure = next((one for one in rule.figures if (one.test, one.unit) == (_code(rating.row), rating.row.unit)), None)
    if figure is None or rating.critical is None:
        is_below = rating.critical is not None and clean(rating.result.value) < clean(rating.critical)
        return Rate(
            _CODE_OF_RULE[RateRule.REMOVAL], (_given_back,) * len(harvests),
            cautions=(SpreadingCaution.BUILD_UP_NOT_SIZED,) if is_below else (),
        )  # fmt: skip
    low, high = (
        to_element(one, figure.nutrient, nutrient, per_acre=figure.per_acre) for one in (figure.low, figure.high)
    )

    def build(at: Asked) -> tuple[float, float]:
        return max(0.0, at.line - at.value) * at.figure / years, at.removal

    return Rate(
        step=_CODE_OF_RULE[rule.rule],
        seasons=_over_years(build, len(harvests), years),
        figure=Doubtful((low + high) / 2, low, high),
        cited=figure.cited,
        facts={"years": years, "per_unit": (low + high) / 2, "per_unit_low": low, "per_unit_high": high},
    )


def _given_back(at: Asked) -> tuple[float, float]:
    """Return a season in which the harvest alone counts."""
    return 0.0, at.removal


def _over_years(season: SeasonRate, harvests: int, years: int) -> tuple[SeasonRate, ...]:
    """Return one function a harvest: the soil is built up over so many years; then its result counts as on the line."""

    def built(at: Asked) -> tuple[float, float]:
        return season(replace(at, value=max(at.value, at.line)))

    return tuple(season if number < years else built for number in range(harvests))


def _code(row: GuidelineRow) -> str:
    """Return the analysis of a row, analyte.method."""
    return f"{row.analyte}.{row.method}"


def _index(rule: NutrientRule, row: GuidelineRow, nutrient: Input, harvests: int) -> Rate | Refused:
    """Return the rule of the United Kingdom: the harvest's share and so much by the Index; nothing from Index 3 on."""
    rates = index_rates()
    nil = next(one for one in rates.values() if one.is_nil)
    if not any(one.name in rates for one in row.classes):
        return Refused(WhyNot.RULE_VOID, {"reason": "classes-unknown", "row": row.id})

    def season(at: Asked) -> tuple[float, float]:
        found = class_of(row, clean(at.value))
        rate = rates.get(found.name, nil) if found else nil
        return (0.0, 0.0) if rate.is_nil else (to_element(rate.add, rule.form, nutrient), at.removal)

    return Rate(_CODE_OF_RULE[rule.rule], (season,) * harvests, cited=rates["index-1"].cited)


def _class(
    rule: NutrientRule, row: GuidelineRow, nutrient: Input, harvests: tuple[Harvest, ...], editions: tuple[str, ...]
) -> Rate | Refused:
    """Return the rates of a table by class and crop. A low class never gets less than the harvest takes off."""
    seasons: list[SeasonRate] = []
    cited: Cited | None = None
    for harvest in harvests:
        crops = [found.crop for one in harvest.rows if (found := produce_of(editions, one.crop, one.leaves))]
        crop = crops[0] if crops else ""
        first = iowa_rate(rule.form, crop, row.classes[0].name) if crop and row.classes else None
        if first is None:
            reason = "crop-without-rate" if harvest.rows else "no-crop-plan"
            return Refused(WhyNot.RULE_VOID, {"reason": reason, "year": harvest.year})
        seasons.append(_class_season(rule, row, nutrient, crop))
        cited = first.cited
    return Rate(_CODE_OF_RULE[rule.rule], tuple(seasons), cited=cited)


def _class_season(rule: NutrientRule, row: GuidelineRow, nutrient: Input, crop: str) -> SeasonRate:
    """Return the rate of one crop by class."""

    def season(at: Asked) -> tuple[float, float]:
        found = class_of(row, clean(at.value))
        rate = iowa_rate(rule.form, crop, found.name) if found else None
        if rate is None:
            return 0.0, 0.0
        if rate.rate is None:
            return 0.0, at.removal
        printed = to_element(rate.rate, rule.form, nutrient, per_acre=True)
        is_low = rounded(clean(at.value), row.decimals) < at.line
        return printed, max(0.0, at.removal - printed) if is_low else 0.0

    return season


def _formula(rule: NutrientRule, rating: Rating, nutrient: Input, harvests: int, years: int) -> Rate | Refused:
    """Return the formula of Michigan, Ohio and Indiana, which builds up over its own years; others in proportion."""
    figures = tri_state_figures()
    share = figures.years / years
    if nutrient is Input.PHOSPHORUS:
        per_unit = to_element(figures.phosphate_per_unit * share, rule.form, nutrient, per_acre=True)

        def season(at: Asked) -> tuple[float, float]:
            above = at.value - at.line - figures.maintenance
            kept = min(1.0, max(0.0, 1 - above / figures.drawdown))
            return max(0.0, at.line - at.value) * at.figure, at.removal * kept

    else:
        capacity = next((one.value for one in rating.covariates if one.code == _CAPACITY), None)
        if capacity is None:
            return Refused(WhyNot.COVARIATE_MISSING, {"covariate": _CAPACITY})
        per_unit = to_element(figures.potash_for_one(capacity) * share, rule.form, nutrient, per_acre=True)
        extra = to_element(figures.potash_extra, rule.form, nutrient, per_acre=True)

        def season(at: Asked) -> tuple[float, float]:
            return max(0.0, at.line - at.value) * at.figure + extra, at.removal

    facts: dict[str, Fact] = {"years": years, "per_unit": per_unit * years}
    return Rate(_CODE_OF_RULE[rule.rule], _over_years(season, harvests, years), exact(per_unit), figures.cited, facts)
