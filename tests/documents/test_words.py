"""Every code of the schemas has its word."""

from __future__ import annotations

from typing import Any

from soilrota.documents.words import AVOIDED, CLASSES, LAND_USES, PATTERNS, POSITIONS, SOIL_STATES, material_words
from soilrota.files.schemas import shipped_schemas


def choices(file_name: str, *path: str | int) -> set[Any]:
    """Return the words that a schema allows at a path."""
    return set(shipped_schemas().at(file_name, path)["enum"])


def test_words_cover_the_schemas() -> None:
    """No code that a book may hold is ever printed for want of a word."""
    zone = ("farms", 0, "zones", 0)
    assert set(LAND_USES) == choices("client.schema.json", *zone, "land_use")
    assert set(POSITIONS) == choices("client.schema.json", *zone, "landscape_position")
    assert set(CLASSES) == choices("applications.table.json", "class")
    assert set(AVOIDED) == choices("map.schema.json", "features", 0, "properties", "class")
    assert set(PATTERNS) == choices("protocols.schema.json", "protocols", 0, "pattern")
    assert set(SOIL_STATES) == choices("protocols.schema.json", "protocols", 0, "soil_state")


def test_a_material_that_says_nothing_more_is_not_repeated() -> None:
    """Lime is lime."""
    assert material_words("lime", "Lime") == "lime"
    assert material_words("manure", "cattle slurry") == "manure or slurry (cattle slurry)"
