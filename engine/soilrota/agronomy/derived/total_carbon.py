"""All organic carbon of a bag, by whichever method measured it, and the organic matter that it lets expect.

Dry combustion finds all of it and comes first. Walkley and Black's method finds a part, so it is multiplied by the
published factor. Facts that it adds to a quantity's:

- `carbon_method`: id of the method; `carbon_percent`: total organic carbon that was used [%];
- `recovery_factor`, `recovery_factor_low`, `recovery_factor_high`, `recovery_factor_source`, `recovery_factor_status`:
  by what the laboratory's figure was multiplied [-]; only for Walkley and Black.

Caution `chloride-counts-as-carbon`: chloride is so high that Walkley and Black's method finds it as carbon.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from soilrota.agronomy.derived.inputs import Bag, Reading
from soilrota.agronomy.derived.intervals import Doubtful, exact
from soilrota.guidelines.carbon import chloride_interferes_above, organic_matter_factor, walkley_black_factor
from soilrota.guidelines.cited_tables import citation
from soilrota.model.findings import Fact
from soilrota.model.guideline import Status
from soilrota.model.judgement import Refused, WhyNot
from soilrota.quantities import split_code

DRY_COMBUSTION, WALKLEY_BLACK = "organic-carbon.dry-combustion", "organic-carbon.walkley-black"
CARBON = (DRY_COMBUSTION, WALKLEY_BLACK)
_MATTER = "organic-matter.loss-on-ignition"
_CHLORIDE = "chloride.water-1-5"


@dataclass(frozen=True, slots=True)
class TotalCarbon:
    """Organic carbon as measured [%], and the factor that makes all of it [-].

    Attributes:
        reading: what was measured.
        factor: by what it is multiplied.
        facts, status, cautions: of the factor.
    """

    reading: Reading
    factor: Doubtful
    facts: Mapping[str, Fact]
    status: Status
    cautions: tuple[str, ...]


def total_carbon(bag: Bag) -> TotalCarbon | Refused:
    """Return the organic carbon of a bag; why not where it cannot be told."""
    code = bag.first(*CARBON)
    if not code:
        return Refused(WhyNot.NOT_MEASURED, {"needs": CARBON})
    found = bag.read(code, unit="%")
    if isinstance(found, Refused):
        return found
    (reading,) = found
    if code == DRY_COMBUSTION:
        return TotalCarbon(reading, exact(1.0), _facts(code, reading.amount.value), Status.VERIFIED, ())
    figure = walkley_black_factor()
    facts: dict[str, Fact] = {
        **_facts(code, reading.amount.value * figure.value),
        "recovery_factor": figure.value,
        "recovery_factor_low": figure.low,
        "recovery_factor_high": figure.high,
        "recovery_factor_source": citation(figure.source),
        "recovery_factor_status": figure.status.value,
    }
    return TotalCarbon(reading, Doubtful(figure.value, figure.low, figure.high), facts, figure.status, _cautions(bag))


def organic_matter_percent(bag: Bag) -> float | None:
    """Return the organic matter of a bag [%], measured or of its carbon, for what needs no more than its size."""
    measured = bag.read(_MATTER, unit="%")
    if not isinstance(measured, Refused):
        return measured[0].amount.value
    carbon = total_carbon(bag)
    if isinstance(carbon, Refused):
        return None
    return carbon.reading.amount.value * carbon.factor.value * organic_matter_factor().value


def _facts(code: str, percent: float) -> dict[str, Fact]:
    """Return how the carbon was measured, and how much there is [%]."""
    return {"carbon_method": split_code(code)[1], "carbon_percent": percent}


def _cautions(bag: Bag) -> tuple[str, ...]:
    """Return the caution that chloride is found as carbon, where there is enough of it."""
    chloride = bag.read(_CHLORIDE)
    limit = chloride_interferes_above().value
    is_high = not isinstance(chloride, Refused) and chloride[0].amount.value > limit
    return ("chloride-counts-as-carbon",) if is_high else ()
