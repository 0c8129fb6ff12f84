"""Clay by field texture grade."""

from __future__ import annotations

import pytest

from soilrota.guidelines.texture_clay import clay_of_texture


@pytest.mark.parametrize(
    ("texture", "low", "high"),
    [
        ("sand", 0, 5), ("loamy-sand", 5, 5), ("clayey-sand", 5, 10), ("sandy-loam", 10, 20), ("loam", 25, 25),
        ("silt-loam", 25, None), ("sandy-clay-loam", 20, 30), ("clay-loam", 30, 35), ("light-clay", 35, 40),
        ("light-medium-clay", 40, 45), ("medium-clay", 45, 55), ("heavy-clay", 50, None),
    ],
)  # fmt: skip
def test_printed_grades(texture: str, low: float, high: float | None) -> None:
    """Soil texture (laboratory methods), table of field texture grades."""
    found = clay_of_texture(texture)
    assert found is not None
    assert (found.low, found.high) == (low, high)
    assert found.source.title == "Soil texture (laboratory methods)"


def test_no_grade() -> None:
    """Peat has no clay to speak of."""
    assert clay_of_texture("peat") is None
