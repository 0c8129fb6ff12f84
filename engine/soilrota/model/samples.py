"""What was really taken in the field."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from soilrota.problems import Place


@dataclass(frozen=True, slots=True)
class FieldNote:
    """One bag taken: one zone, one depth layer, one day.

    Attributes:
        day: date of sampling.
        farm, zone, protocol: ids.
        top_cm, bottom_cm: depth of the layer [cm].
        cores: cores taken [-]; None when not written down.
        soil_state: `dry`, `moist`, `wet`, or empty.
        sampler: who took it, in words; may be empty.
        bag: bag id; may be empty.
        place: the row.
    """

    day: date
    farm: str
    zone: str
    protocol: str
    top_cm: float
    bottom_cm: float
    cores: int | None
    soil_state: str
    sampler: str
    bag: str
    place: Place
