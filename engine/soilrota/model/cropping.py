"""What grows on a zone, year by year, and what leaves it."""

from __future__ import annotations

from dataclasses import dataclass

from soilrota.problems import Place


@dataclass(frozen=True, slots=True)
class CropYear:
    """One row of the cropping plan.

    Attributes:
        farm, zone: ids.
        year: year of harvest.
        crop: the crop in words, as tables name it, for instance `wheat`.
        target_yield: yield that is aimed at [t/ha; milk in kL/ha; live weight in t/ha]; None where none is given.
        target_protein_percent: grain protein that is aimed at [%]; None where none is given.
        leaves: what leaves the field, for instance `grain`, `hay`, `nothing`; empty for the usual.
        place: the row.
    """

    farm: str
    zone: str
    year: int
    crop: str
    target_yield: float | None
    target_protein_percent: float | None
    leaves: str
    place: Place
