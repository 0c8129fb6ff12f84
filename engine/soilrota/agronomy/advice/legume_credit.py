"""What a legume before leaves to the next crop, as far as the measured profile cannot hold it yet [kg N/ha].

    credit = 18 +/- 9 kg N a tonne of the legume's grain x share of the fallow that was still to come at the sampling

The figure is what sixteen experiments in eastern Australia found more in the profile just before the wheat was sown
(Peoples and others 2017). A profile that was sampled then has it already, and nothing is taken off twice. One that was
sampled earlier in the fallow holds a part; that it gathers evenly over the fallow is our own convention, no source.

Steps: `legume-credit`, `legume-in-profile`. Caution: `legume-credit-left-out`, where no figure holds for the legume.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from soilrota.agronomy.advice.spreading_cautions import SpreadingCaution
from soilrota.agronomy.advice.working import Part, part
from soilrota.agronomy.derived.intervals import WIDTH, Doubtful
from soilrota.guidelines.crop_produce import is_legume
from soilrota.guidelines.nitrogen import fallow_ends, nitrogen_figures
from soilrota.guidelines.nutrient_regions import next_harvest_from
from soilrota.model.cropping import CropYear
from soilrota.model.findings import Fact
from soilrota.model.practice import Hemisphere

_GRAIN = ("", "grain")


@dataclass(frozen=True, slots=True)
class Legume:
    """The legume that was harvested before the crop that a budget is for.

    Attributes:
        row: its row of the cropping plan.
        to_come: share of the fallow after it that was still to come when the profile was sampled [-]; None where no
            fallow is known.
    """

    row: CropYear
    to_come: float | None


def legume_before(plan: Iterable[CropYear], year: int, sampled: date, hemisphere: Hemisphere) -> Legume | None:
    """Return the legume before a harvest; None where the plan has none.

    Args:
        plan: rows of one zone.
        year: year of the harvest that the budget is for.
        sampled: day on which the profile was sampled.
        hemisphere: northern or southern.
    """
    for row in plan:
        if row.year == year - 1 and is_legume(row.crop):
            return Legume(row, _to_come(year, sampled, hemisphere))
    return None


def legume_credit(legume: Legume | None) -> tuple[tuple[Part, ...], tuple[str, ...]]:
    """Return the step of a legume before, and the caution where it cannot be reckoned."""
    if legume is None:
        return (), ()
    row = legume.row
    if row.target_yield is None or row.leaves not in _GRAIN or legume.to_come is None:
        return (), (SpreadingCaution.LEGUME_CREDIT_LEFT_OUT,)
    figure = nitrogen_figures()["legume-credit"]
    facts: dict[str, Fact] = {"crop": row.crop, "year": row.year}
    if not legume.to_come:
        return (part("legume-in-profile", 0.0, facts, figure.cited),), ()
    grain = row.target_yield * legume.to_come
    spread = WIDTH * (figure.high - figure.value)
    facts |= {"target_yield": row.target_yield, "per_unit": figure.value, "to_come_percent": 100 * legume.to_come}
    amount = Doubtful(-figure.value, -figure.value - spread, min(0.0, spread - figure.value)).times(grain)
    return (part("legume-credit", amount, facts, figure.cited),), ()


def _to_come(year: int, sampled: date, hemisphere: Hemisphere) -> float | None:
    """Return the share of the fallow before a harvest that lies after a day [-]; None where no fallow is known."""
    end = fallow_ends(hemisphere)
    if end is None:
        return None
    first = date(year - 1, next_harvest_from(hemisphere), 1)
    last = date(year, *end)
    return min(1.0, max(0.0, (last - sampled) / (last - first)))
