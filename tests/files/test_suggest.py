"""The name that was probably meant."""

from __future__ import annotations

from soilrota.files import nearest_name


def test_near_names_are_found() -> None:
    """A swap, a missing letter or another case still finds its name; nonsense finds none."""
    names = ["area_ha", "soil_type", "north-bench"]
    assert nearest_name("aera_ha", names) == "area_ha"
    assert nearest_name("Soil_Type", names) == "soil_type"
    assert nearest_name("qqqq", names) is None
