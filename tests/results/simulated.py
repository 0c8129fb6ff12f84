"""Invented farms for the search for swapped bags: zones that differ, years that differ, a laboratory that errs.

Between zones the logarithms (pH as it is) are normal. CV of P 56.9 % and pH 7.1 % are those of 77 samples on a 50 m
grid (scirp.org, paper 79898); of organic carbon 15 %, total N 18 % and capacity 11 % those of one maize field
(asrjetsjournal.org, article 3352: 12.8-16.8, 15.7-20.6 and 9.9-12.9 %); of K and S 40 %, inside the 18-55 % of hill
country (Morton et al. 2000); the others are invented. From year to year values change as the shipped table says, with
the figures of Morton et al. (2000) for P, pH, S and K. A third of that variance is the year's own and the same for all
zones of a farm, a third moves all analyses of a bag together, and a third has heavy tails (Student's t with 5 degrees
of freedom).
"""

from __future__ import annotations

import random
from dataclasses import dataclass, replace
from datetime import date
from math import exp, log, log1p, sqrt

from soilrota.guidelines.plausibility import usual_spread
from soilrota.model.client import Client
from soilrota.model.results import Result
from soilrota.problems import Place
from soilrota.quantities import analyte, method
from tests.timing.test_tasks import client as plain_client
from tests.timing.test_tasks import zone as plain_zone

FIRST_YEAR = 2019
_TAILS = 5


@dataclass(frozen=True)
class Analysis:
    """One analysis: a typical value [unit] and how much zones differ (relative; pH in its own units)."""

    code: str
    typical: float
    between: float


ANALYSES = (
    Analysis("ph.cacl2", 5.3, 0.38),
    Analysis("phosphorus.olsen", 22, 0.569),
    Analysis("potassium.colwell", 150, 0.40),
    Analysis("sulphur.kcl-40", 10, 0.40),
    Analysis("organic-carbon.walkley-black", 2.4, 0.15),
    Analysis("phosphorus-buffering-index.colwell-adjusted", 90, 0.30),
    Analysis("magnesium.exchangeable", 1.6, 0.30),
    Analysis("calcium.exchangeable", 6, 0.30),
    Analysis("exchange-capacity.effective", 9, 0.11),
    Analysis("nitrogen.dry-combustion", 0.22, 0.18),
)


@dataclass(frozen=True)
class Farm:
    """A client with its history, and one report that just came, in which two zones may have changed places."""

    client: Client
    fresh: tuple[Result, ...]
    swapped: frozenset[str]


def simulated_farm(seed: int, *, zones: int, years: int, analyses: int, swap: bool, unrest: float = 1.0) -> Farm:
    """Return a farm.

    Args:
        seed: decides everything that is left to chance.
        zones: how many [-].
        years: of history before the report [-].
        analyses: how many of `ANALYSES`, the first ones [-].
        swap: whether two bags of the report hold each other's soil.
        unrest: how much more years differ than the cited figures say [-].
    """
    chance = random.Random(seed)
    names = [f"z{number}" for number in range(zones)]
    levels = {name: [chance.gauss(0, _spread(one)) for one in ANALYSES[:analyses]] for name in names}
    results: list[Result] = []
    for year in range(years + 1):
        of_year = [chance.gauss(0, 1) for _ in range(analyses)]
        for name in names:
            results += _bag(chance, name, levels[name], of_year, year=FIRST_YEAR + year, unrest=unrest)
    history, fresh = _parted(results, FIRST_YEAR + years)
    pair = chance.sample(names, 2) if swap else []
    other = dict(zip(pair, reversed(pair), strict=True))
    fresh = tuple(replace(result, zone=other.get(result.zone, result.zone)) for result in fresh)
    base = plain_client()
    farm = replace(base.farms[0], zones=tuple(plain_zone(name, "topsoil") for name in names))
    return Farm(replace(base, farms=(farm,), results=history), fresh, frozenset(pair))


def _spread(analysis: Analysis) -> float:
    """Return the standard deviation between zones on the scale of comparison."""
    is_log = usual_spread(analysis.code.partition(".")[0]).is_log
    return sqrt(log1p(analysis.between**2)) if is_log else analysis.between


def _parted(results: list[Result], last: int) -> tuple[tuple[Result, ...], tuple[Result, ...]]:
    """Return the results before the last year, and those of it."""
    return (
        tuple(one for one in results if one.sampled.year < last),
        tuple(one for one in results if one.sampled.year == last),
    )


def _bag(
    chance: random.Random, zone: str, levels: list[float], of_year: list[float], *, year: int, unrest: float
) -> list[Result]:
    """Return the results of one zone in one year, printed as a laboratory prints them."""
    together = chance.gauss(0, 1)
    made = []
    for one, level, common in zip(ANALYSES, levels, of_year, strict=False):
        analyte_id, _, method_id = one.code.partition(".")
        table, known = usual_spread(analyte_id), method(analyte_id, method_id)
        assert known is not None
        assert analyte(analyte_id) is not None
        change = unrest * table.sd * (common + together + _heavy(chance)) / sqrt(3)
        value = exp(log(one.typical) + level + change) if table.is_log else one.typical + level + change
        made.append(
            Result(
                report=f"r-{year}", sampled=date(year, 2, 10), reported=date(year, 3, 1), farm="home", zone=zone,
                protocol="topsoil", bag=f"{zone}-{year}", top_cm=0, bottom_cm=10, analyte=analyte_id,
                method=method_id, qualifier="", value=round(value, known.decimals), unit=known.unit,
                laboratory="north-bench", place=Place(f"r-{year}.csv", 2),
            )
        )  # fmt: skip
    return made


def _heavy(chance: random.Random) -> float:
    """Return a deviation with heavy tails and a variance of one: Student's t."""
    chi = sum(chance.gauss(0, 1) ** 2 for _ in range(_TAILS))
    return chance.gauss(0, 1) / sqrt(chi / _TAILS) * sqrt((_TAILS - 2) / _TAILS)
