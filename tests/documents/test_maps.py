"""Maps of farms."""

from __future__ import annotations

from dataclasses import replace
from xml.etree import ElementTree

import pytest

from soilrota.documents.map_frame import Frame, positions_of
from soilrota.documents.maps import HEIGHT, WIDTH, farm_map, zone_letters
from soilrota.model.ground import Outline
from tests.documents.made import CLIENTS, example


@pytest.mark.parametrize("name", CLIENTS)
def test_a_map_names_every_zone_and_stays_inside(name: str) -> None:
    """Each zone has its letter, the scale and north are there, the picture is well formed."""
    for farm in example(name).farms:
        drawn = farm_map(farm)
        if not drawn:
            assert all(zone.outline is None for zone in farm.zones)
            continue
        root = ElementTree.fromstring(drawn)
        words = [element.text for element in root.iter("{http://www.w3.org/2000/svg}text")]
        assert set(zone_letters(len(farm.zones))) <= set(words)
        assert "N" in words
        assert any((word or "").endswith((" m", " km")) for word in words)
        assert float(root.attrib["height"]) <= HEIGHT + 20
        for circle in root.iter("{http://www.w3.org/2000/svg}circle"):
            assert -20 <= float(circle.attrib["cx"]) <= WIDTH + 20


def test_a_farm_across_the_date_line_is_drawn_whole() -> None:
    """Land on both sides of 180 degrees is one shape, not two at the edges of the world."""
    farm = example("juniper-start").farms[0]
    ring = ((179.99, -17.0), (-179.99, -17.0), (-179.99, -17.01), (179.99, -17.01), (179.99, -17.0))
    zone = replace(farm.zones[0], outline=Outline(((ring,),), farm.place))
    drawn = farm_map(replace(farm, zones=(zone,)))
    assert "500 m" in drawn or "200 m" in drawn or "250 m" in drawn


def test_letters_go_on_after_z() -> None:
    """The 27th zone is AA."""
    letters = zone_letters(60)
    assert letters[25:28] == ("Z", "AA", "AB")
    assert len(set(letters)) == 60


def test_a_visit_shows_its_zones_and_their_order() -> None:
    """Each zone of the visit has its turn; the alternative names them in order; others are drawn without."""
    farm = example("brolga-plains").farms[0]
    route = [farm.zones[2].id, farm.zones[0].id]
    drawn = farm_map(farm, route)
    root = ElementTree.fromstring(drawn)
    words = [element.text for element in root.iter("{http://www.w3.org/2000/svg}text")]
    assert words.count("1") == words.count("2") == 1
    assert "3" not in words
    assert "Zones of this visit in their order: C Sandhill, A Paddock one." in drawn


def test_names_of_places_keep_clear_of_zones_names() -> None:
    """The salt scald lies beside the letter of its paddock; its name does not run through the paddock's."""
    root = ElementTree.fromstring(farm_map(example("brolga-plains").farms[0]))
    at = {
        element.text: (float(element.attrib["x"]), float(element.attrib["y"]))
        for element in root.iter("{http://www.w3.org/2000/svg}text")
    }
    scald, paddock = at["Salt scald"], at["Dam paddock"]
    assert abs(scald[1] - paddock[1]) >= 9 or scald[0] > paddock[0] + 30 or scald[0] + 48 < paddock[0] - 30


def test_letters_and_names_keep_off_the_places_drawn_in_a_zone() -> None:
    """No zone's letter or name stands on a salt scald, a heap or a blow-out; no name is lost for that."""
    for client in ("brolga-plains", "farrow-vines", "iron-prairie", "dune-end-sheep"):
        farm = example(client).farms[0]
        edges = [*(zone.outline for zone in farm.zones if zone.outline), *([farm.boundary] if farm.boundary else [])]
        frame = Frame.around(positions_of(edges), WIDTH, HEIGHT, 14.0)
        root = ElementTree.fromstring(farm_map(farm))
        marks = []
        for place in farm.avoided:
            if place.shape != "line":
                points = [frame.point(position) for position in place.positions[0]]
                marks.append((sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)))
        words = [one for one in root.iter() if one.tag.endswith("text")]
        assert {zone.name for zone in farm.zones} <= {one.text for one in words}
        letters = [one for one in words if one.get("font-size") == "11.5"]
        assert len(letters) == len(farm.zones)
        for letter in letters:
            at = float(letter.get("x", 0)), float(letter.get("y", 0))
            assert all(abs(at[0] - x) > 10 or abs(at[1] - 4 - y) > 10 for x, y in marks)
