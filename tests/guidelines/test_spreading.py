"""Where cautions belong: the table's figures, each with where it comes from."""

from __future__ import annotations

from soilrota.guidelines.spreading import is_grazed, most_cadmium, near_water_m, runs_off


def test_the_table() -> None:
    """Slopes and hollows, pasture, a distance of our own; voluntary limits of cadmium where they were read."""
    assert near_water_m() > 0
    assert runs_off("hollow")
    assert not runs_off("flat")
    assert is_grazed("pasture")
    assert not is_grazed("crop")
    assert most_cadmium("GB") is None


def test_voluntary_limits_of_cadmium() -> None:
    """280 mg Cd/kg P in New Zealand (Fertiliser Association of New Zealand), 300 in Australia."""
    found = {country: most_cadmium(country) for country in ("NZ", "AU")}
    assert all(one and one[1].source.author for one in found.values())
    assert {country: one[0] for country, one in found.items() if one} == {"NZ": 280.0, "AU": 300.0}
