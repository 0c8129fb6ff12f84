"""Patterns of zones on a map, told apart without colour."""

from __future__ import annotations

from soilrota.documents.map_shades import Shade, is_patterned, shade_strokes, swatch
from soilrota.documents.maps import farm_map
from soilrota.documents.report_standing import Standing
from tests.documents.made import example

SQUARE = [[(0.0, 0.0), (60.0, 0.0), (60.0, 60.0), (0.0, 60.0), (0.0, 0.0)]]


def test_patterns_differ_and_what_is_in_order_is_plain() -> None:
    """Four patterns, none for the rest."""
    drawn = {standing: shade_strokes(standing, SQUARE) for standing in Standing}
    patterned = {standing for standing in Standing if drawn[standing]}
    assert patterned == {Standing.TOO_HIGH, Standing.TOO_LOW, Standing.NEAR, Standing.UNRATED}
    assert {standing for standing in Standing if is_patterned(standing)} == patterned
    assert len({drawn[one] for one in patterned}) == 4
    assert all("<title>" in swatch(standing) for standing in Standing)


def test_a_map_says_each_zone_and_its_words() -> None:
    """In its alternative, with the letter; a zone without a shade says that it has no value."""
    farm = example("anvil-creek").farms[0]
    shades = {farm.zones[0].id: Shade(Standing.TOO_LOW, "12, too low")}
    picture = farm_map(farm, (), shades, "Colwell P")
    assert "Map of Home block by Colwell P. A North flat: 12, too low; B Barn: no value;" in picture
    # In the alternative, and twice in the zone: its halo and itself.
    assert picture.count("12, too low") == 3
    assert farm_map(farm) == farm_map(farm, ())
