"""What was, or will be, spread on the land."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from soilrota.problems import Place


class Standing(StrEnum):
    """Whether an application happened: done, planned, or cancelled (it did not and will not happen)."""

    DONE = "done"
    PLANNED = "planned"
    CANCELLED = "cancelled"


@dataclass(frozen=True, slots=True)
class Application:
    """One row of the applications log.

    Attributes:
        farm: id of the farm.
        zones: ids of the zones it touched; empty when none was named, and then every zone of the farm is meant.
        material_class: `mineral-fertiliser`, `lime`, `gypsum`, `manure`, `compost`, `biosolids` or `other-amendment`.
        material: what it was, in the client's words.
        first_day: first day of spreading; None when not known.
        last_day: last day of spreading; None when not known. A known last day with an unknown first day means
            'at the latest on'.
        standing: done, planned or cancelled.
        rate_kg_ha: rate [kg/ha]; None when not known.
        place: the row.
    """

    farm: str
    zones: tuple[str, ...]
    material_class: str
    material: str
    first_day: date | None
    last_day: date | None
    standing: Standing
    rate_kg_ha: float | None
    place: Place
