"""Clay by field texture grade, from the shipped table."""

from __future__ import annotations

from dataclasses import dataclass

from soilrota.guidelines.cited_tables import cited_table
from soilrota.model.guideline import Source

_TABLE = "texture_clay"


@dataclass(frozen=True, slots=True)
class ClayRange:
    """Clay of a field grade [%]: both ends are one where 'about' is printed; `high` is None where it is open."""

    low: float
    high: float | None
    source: Source


def clay_of_texture(texture: str) -> ClayRange | None:
    """Return the clay of a field texture grade [%]; None where the table has no such grade."""
    table = cited_table(_TABLE)
    row = table.content["textures"].get(texture)
    if row is None:
        return None
    source = table.sources[table.content["source"]]
    if "about" in row:
        return ClayRange(float(row["about"]), float(row["about"]), source)
    return ClayRange(float(row["low"]), float(row["high"]) if "high" in row else None, source)
