"""Where weather is recorded."""

from __future__ import annotations

from dataclasses import dataclass

from soilrota.problems import Place


@dataclass(frozen=True, slots=True)
class Station:
    """Where weather is recorded: position in degrees, WGS 84, south and west negative."""

    id: str
    name: str
    latitude: float
    longitude: float
    place: Place
