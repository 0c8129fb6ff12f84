"""Zones whose true mean is known: cores of a log-normal soil, mixed, analysed by a laboratory that is off by its part.

What is drawn rests on the cited figures themselves, so a reliability table shows whether the probability is worked out
rightly, not whether the figures fit some soil.
"""

from __future__ import annotations

from math import exp, log, log1p, sqrt
from random import Random
from statistics import fmean

from soilrota.agronomy.doubt import Evidence, doubt_of
from soilrota.agronomy.probability import probability_under
from soilrota.guidelines.core_spread import cited_spread
from soilrota.guidelines.laboratory_spread import laboratory_cv
from soilrota.model.results import Result
from tests.results.making import result

#: Line of the simulated guideline, and how it is known where its interval is printed [mg/kg].
LINE, LOW, HIGH = 30.0, 25.0, 36.0


def case(random: Random, cores: int, *, sharp: bool) -> tuple[float, bool]:
    """Return the probability that the engine gives for one zone, and whether its true mean lies under the true line.

    Args:
        random: source of chance.
        cores: cores of the composite [-].
        sharp: whether the line is exact; else it is drawn from its printed interval.
    """
    mean = exp(random.uniform(log(LINE / 3), log(LINE * 3)))
    line = LINE if sharp else LINE * exp(random.gauss(0, log(HIGH / LOW) / 2 / 1.96))
    found = reading(random, mean, cores)
    doubt = doubt_of(found, Evidence(cores={("b", 0, 10): cores}))
    interval = (None, None) if sharp else (LOW, HIGH)
    return probability_under(found.value, doubt, LINE, *interval), mean < line


def reading(random: Random, mean: float, cores: int) -> Result:
    """Return what a laboratory finds in a composite of a zone with a true mean [mg/kg]."""
    composite = fmean(_around(random, mean, cited_spread("phosphorus").core_cv_percent / 100) for _ in range(cores))
    # Laboratories are compared with the median of them all, so it is the median that is true.
    value = composite * exp(random.gauss(0, sqrt(log1p(laboratory_cv("phosphorus.colwell", composite) ** 2))))
    return result("phosphorus.colwell", value, bag="B")


def _around(random: Random, mean: float, cv: float) -> float:
    """Return a log-normal number with a mean and a coefficient of variation [-]."""
    variance = log1p(cv * cv)
    return random.lognormvariate(log(mean) - variance / 2, sqrt(variance))


def reliability(random: Random, cases: int, *, cores: int = 20, sharp: bool = True) -> list[tuple[int, float, float]]:
    """Return for each tenth of probability how many cases fell in it, what was said on average, and what came true."""
    bins: list[list[tuple[float, bool]]] = [[] for _ in range(10)]
    for _ in range(cases):
        said, true = case(random, cores, sharp=sharp)
        bins[min(int(said * 10), 9)].append((said, true))
    return [
        (len(held), fmean(said for said, _ in held), fmean(float(true) for _, true in held)) for held in bins if held
    ]
