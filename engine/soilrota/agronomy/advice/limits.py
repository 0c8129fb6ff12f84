"""Maxima of nutrients: the guideline's upper limit, what a clear result allows, the law, the practice's own.

Rules of maxima: `above-limit` (the result lies above the row's upper limit: nothing), `clearly-above-line` (nothing,
because no source says that a harvest is to be made good there), `legal` (what the law lets anybody spread in a calendar
year, less what is spread in it already), and whatever the practice calls its own.
"""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.agronomy.advice.removal import to_element
from soilrota.agronomy.advice.spreading_cautions import SpreadingCaution
from soilrota.agronomy.critical import clean
from soilrota.guidelines.classes import rounded
from soilrota.guidelines.judging import judging_figures
from soilrota.guidelines.phosphate_limits import legal_use, phosphate_limits
from soilrota.model.advice import Cap, Input
from soilrota.model.client import Zone
from soilrota.model.findings import Fact
from soilrota.model.guideline import GuidelineRow
from soilrota.model.judgement import Rating

ABOVE_LIMIT, CLEARLY_ABOVE, LEGAL = "above-limit", "clearly-above-line", "legal"


def upper_limit(rating: Rating) -> Iterator[Cap]:
    """Yield that nothing is to be added, where a result lies above the upper limit of its row."""
    row = rating.row
    if row.limit is not None and is_above_limit(row, rating.result.value):
        facts: dict[str, Fact] = {"value": rating.result.value, "limit": row.limit, "unit": row.unit}
        yield Cap(0.0, ABOVE_LIMIT, facts, row.source, row.status)


def is_above_limit(row: GuidelineRow, value: float) -> bool:
    """Return whether a value lies above the upper limit of a row [unit of the row]."""
    return row.limit is not None and rounded(clean(value), row.decimals) > row.limit


def clear_of_line(rating: Rating) -> Iterator[Cap]:
    """Yield that nothing is to be added, where a zone is clearly above its line."""
    least = judging_figures().near_low
    if rating.below is not None and rating.below <= least and rating.critical is not None:
        facts: dict[str, Fact] = {"below": rating.below, "line": rating.critical, "value": rating.result.value}
        facts["unit"] = rating.row.unit
        yield Cap(0.0, CLEARLY_ABOVE, facts, rating.row.source, rating.row.status)


def legal_maxima(
    place: tuple[str, str], zone: Zone, rating: Rating, spread: float
) -> tuple[tuple[Cap, ...], tuple[str, ...]]:
    """Return the legal maximum of phosphorus [kg P/ha], and cautions.

    Of several holdings the least maximum is taken: the book does not say which the client's is.

    Args:
        place: ISO 3166-1 code, and ISO 3166-2 part without the country.
        zone: the zone.
        rating: of phosphorus.
        spread: what is, or will be, spread in the calendar year without this advice [kg P/ha].
    """
    limits = phosphate_limits(*place)
    if not limits:
        return (), ()
    use = legal_use(zone.land_use)
    found = [one for one in limits if one.use == use and rating.name in one.most]
    if not found:
        return (), (SpreadingCaution.LEGAL_MAXIMUM_UNKNOWN,)
    least = min(found, key=lambda one: one.most[rating.name])
    most = to_element(least.most[rating.name], "P2O5", Input.PHOSPHORUS)
    facts: dict[str, Fact] = {
        "use": least.words, "holding": least.holding, "index": rating.name, "caution": least.caution,
        "kg_p2o5_ha": least.most[rating.name], "spread_already": spread,
    }  # fmt: skip
    cap = Cap(max(0.0, most - spread), LEGAL, facts, least.cited.source, least.cited.status)
    return (cap,), ()
