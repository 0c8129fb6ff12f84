"""The key says what its map shows, and no more."""

from __future__ import annotations

from dataclasses import replace

from soilrota.documents.pack_map_key import KEY_ROW, map_key
from soilrota.model.layout import Pattern
from tests.documents.made import example
from tests.documents.packs import a_layout, a_task

CLIENT = example("brolga-plains")
FARM = CLIENT.farms[0]
ZONE = FARM.zones[0]
DEEP, TOP = CLIENT.protocols["deep-nitrogen"], CLIENT.protocols["topsoil-crop"]


def test_what_is_drawn_is_explained() -> None:
    """Squares, hatching and ground where they are; the row only with banded rows."""
    layout = a_layout(ZONE, FARM, DEEP.layers, Pattern.STRATA)
    task = a_task(CLIENT, FARM, ZONE, DEEP)
    key = "".join(map_key(layout, task, 440, 160)[0])
    assert all(words in key for words in ("top layer only", "deeper layers too", "keep away", "ground for cores"))
    assert "in the row" not in key
    banded = replace(layout, points=tuple(replace(one, in_row=one.number == 1) for one in layout.points))
    assert "between rows" in "".join(map_key(banded, task, 440, 160)[0])


def test_one_kind_of_point_needs_no_explaining() -> None:
    """Nothing of layers where every point is the same, nothing of hatching without places."""
    layout = replace(a_layout(ZONE, FARM, TOP.layers), kept_away=None)
    key = "".join(map_key(layout, a_task(CLIENT, FARM, ZONE, TOP), 440, 160)[0])
    assert "layer" not in key
    assert "keep away" not in key


def test_narrow_maps_take_more_rows() -> None:
    """A row is never wider than the map."""
    layout = a_layout(ZONE, FARM, DEEP.layers, Pattern.STRATA)
    task = a_task(CLIENT, FARM, ZONE, DEEP)
    assert map_key(layout, task, 690, 160)[1] == KEY_ROW * 1
    assert map_key(layout, task, 300, 160)[1] > KEY_ROW
