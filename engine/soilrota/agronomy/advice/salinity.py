"""What will still grow well at a salinity: relative yields of the plan's crops and of all others that tables know.

    relative yield = 100 - slope x (ECe - threshold), within 0 and 100 %

Leaching is never dosed: that drainage and licensed advice come first is a caution, not an amount.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from soilrota.agronomy.advice.cautions import Caution
from soilrota.guidelines.cited_tables import weakest
from soilrota.guidelines.salinity import SaltTolerance, salinity_formula, salt_tolerance, salt_tolerances
from soilrota.model.client import Zone
from soilrota.model.guideline import Source, Status
from soilrota.model.judgement import Quantity

ECE = "ece"
_ALL = 100.0


@dataclass(frozen=True, slots=True)
class CropUnderSalt:
    """What salt leaves of one crop.

    Attributes:
        farm, zone: ids.
        crop: its id in the table.
        asked: as the plan writes it; empty where it is not in the plan.
        relative_yield: of that without salt [%].
        low, high: what the doubt in ECe leaves, 95 of 100 [%].
        ece: conductivity of the saturation extract [dS/m].
        threshold: up to which nothing is lost [dS/m].
        slope: lost beyond it [% a dS/m].
        source: where the tolerance comes from.
        status: whether formula, ECe and tolerance were read.
    """

    farm: str
    zone: str
    crop: str
    asked: str
    relative_yield: float
    low: float
    high: float
    ece: float
    threshold: float
    slope: float
    source: Source
    status: Status

    @property
    def is_planned(self) -> bool:
        """Return whether the plan has it."""
        return bool(self.asked)


def what_will_grow(zone: Zone, ece: Quantity, crops: Iterable[str] = ()) -> tuple[CropUnderSalt, ...]:
    """Return what salt leaves of every crop of the table, the best first; planned ones first among equals.

    Args:
        zone: the zone.
        ece: its conductivity of the saturation extract, `ece` of derived quantities [dS/m].
        crops: crops of its plan, as people write them; see `crops_not_known` for those that the table lacks.

    Raises:
        ValueError: the quantity is another one: a fault of the program.
    """
    if ece.code != ECE:
        raise ValueError(f"not a conductivity of the saturation extract: {ece.code}")
    asked: dict[str, str] = {}
    for crop in crops:
        tolerance = salt_tolerance(crop)
        if tolerance is not None:
            asked.setdefault(tolerance.id, crop)
    found = [_under_salt(zone, ece, one, asked.get(one.id, "")) for one in salt_tolerances()]
    return tuple(sorted(found, key=_order))


def crops_not_known(crops: Iterable[str]) -> tuple[str, ...]:
    """Return the crops of a plan whose tolerance no table that was read knows, each once."""
    return tuple(dict.fromkeys(crop for crop in crops if salt_tolerance(crop) is None))


def salinity_cautions(ece: Quantity, growing: Iterable[CropUnderSalt]) -> tuple[str, ...]:
    """Return the cautions that belong beside what will grow.

    Those about leaching stand where salt takes something of any crop; the quantity's own always.
    """
    takes = any(one.low < _ALL for one in growing)
    about_salt = (Caution.DRAINAGE_FIRST, Caution.LEACHING_NEEDS_LICENSED_ADVICE, Caution.SEEDLINGS_BEAR_LESS)
    return tuple(dict.fromkeys((*(about_salt if takes else ()), *ece.cautions)))


def _under_salt(zone: Zone, ece: Quantity, tolerance: SaltTolerance, asked: str) -> CropUnderSalt:
    """Return what salt leaves of one crop; it falls all the way with ECe, so its ends are those of ECe."""
    return CropUnderSalt(
        farm=zone.farm,
        zone=zone.id,
        crop=tolerance.id,
        asked=asked,
        relative_yield=tolerance.relative_yield(ece.value),
        low=tolerance.relative_yield(ece.high),
        high=tolerance.relative_yield(ece.low),
        ece=ece.value,
        threshold=tolerance.threshold,
        slope=tolerance.slope,
        source=tolerance.source,
        status=weakest(salinity_formula("relative-yield")[1], ece.status, tolerance.status),
    )


def _order(one: CropUnderSalt) -> tuple[object, ...]:
    """Return where a crop stands: the best yield first, then the surest, then those of the plan, then by name."""
    return (-one.relative_yield, -one.low, not one.is_planned, one.crop)
