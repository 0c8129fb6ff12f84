"""Where cautions of spreading nutrients belong, from the shipped table."""

from __future__ import annotations

from soilrota.guidelines.cited import Cited, cited, shipped_table

_TABLE = "spreading"


def near_water_m() -> float:
    """Return below which distance a zone is near water [m]: our own default, no source."""
    return float(shipped_table(_TABLE)["near_water_m"]["value"])


def runs_off(landscape_position: str) -> bool:
    """Return whether water runs off, or together on, a landscape position."""
    return landscape_position in shipped_table(_TABLE)["runs_off"]["positions"]


def is_grazed(land_use: str) -> bool:
    """Return whether stock graze on a land use."""
    return land_use in shipped_table(_TABLE)["grazed"]["land_uses"]


def most_cadmium(country: str) -> tuple[float, Cited] | None:
    """Return the voluntary limit of cadmium in phosphorus [mg/kg of phosphorus]; None where the table has none.

    >>> most_cadmium("NZ")[0]
    280.0
    """
    for row in shipped_table(_TABLE)["cadmium"]:
        if row["country"] == country:
            return float(row["most"]), cited(_TABLE, row)
    return None
