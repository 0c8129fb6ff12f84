"""Maps of zones: everything is there, nothing covers anything else."""

from __future__ import annotations

import itertools
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from soilrota.documents.label_places import Box, word_width
from soilrota.documents.pack_map import zone_map
from soilrota.model.client import Farm, Zone
from soilrota.model.layout import Pattern
from soilrota.model.protocol import Layer
from tests.documents.made import example
from tests.documents.packs import a_layout, a_task, no_points

SVG = "{http://www.w3.org/2000/svg}"
CASES = [
    (name, index, pattern, cores)
    for name, index, cores in (
        ("brolga-plains", 0, 25),
        ("anvil-creek", 2, 60),
        ("ellery-orchard", 0, 60),
        ("glen-tarn", 1, 25),
    )
    for pattern in Pattern
]


def drawn(farm: Farm, zone: Zone, pattern: Pattern, cores: int) -> tuple[ElementTree.Element, float]:
    """Return the map of a zone as a tree, and its height."""
    client = example("brolga-plains")
    protocol = replace(client.protocols["topsoil-crop"], layers=(Layer(0, 10, cores), Layer(10, 40, 8)))
    layout = a_layout(zone, farm, protocol.layers, pattern)
    found = zone_map(zone, a_task(client, farm, zone, protocol, layout=layout), farm, 440, 380)
    return ElementTree.fromstring(found.svg), found.height


def word_boxes(root: ElementTree.Element) -> list[tuple[str, Box]]:
    """Return the words that were given a place, with a box a little narrower than the words are."""
    found = []
    for one in root.iter(f"{SVG}text"):
        if one.get("text-anchor") != "middle" or "stroke" in one.attrib or one.text == "N":
            continue
        x, y, size = float(one.attrib["x"]), float(one.attrib["y"]), float(one.attrib["font-size"])
        half = word_width(one.text or "", size) / 2 - 0.5
        found.append((one.text or "", Box(x - half, y - 0.7 * size, x + half, y - 0.5)))
    return found


@pytest.mark.parametrize(("name", "index", "pattern", "cores"), CASES)
def test_no_words_cover_each_other(name: str, index: int, pattern: Pattern, cores: int) -> None:
    """Numbers, names and the way in have their own room inside the picture."""
    farm = example(name).farms[0]
    root, height = drawn(farm, farm.zones[index], pattern, cores)
    assert height <= 381
    words = word_boxes(root)
    picture = Box(0, 0, 440, height)
    assert all(box.inside(picture) for _, box in words)
    overlapping = [(one, other) for (one, a), (other, b) in itertools.combinations(words, 2) if a.covers(b)]
    assert overlapping == []
    said = [word for word, _ in words]
    assert "1 start" in said
    if pattern is not Pattern.CLUSTER:
        assert str(cores) in said
    text = [one.text or "" for one in root.iter(f"{SVG}text")]
    assert "N" in text
    assert any(word.endswith((" m", " km")) for word in text)
    title = root.findtext(f"{SVG}title") or ""
    assert title.startswith(f"Map of {farm.zones[index].name}. {cores} points in walking order")


def test_a_cluster_is_drawn_again_large() -> None:
    """Two scale bars: the zone's and the spot's."""
    farm = example("ellery-orchard").farms[0]
    root, _ = drawn(farm, farm.zones[0], Pattern.CLUSTER, 25)
    bars = [one.text for one in root.iter(f"{SVG}text") if (one.text or "").endswith(" m")]
    assert len(bars) == 2


def test_a_way_in_far_away_is_pointed_at() -> None:
    """The arrow says how far; a near way in is a mark on the map."""
    farm = example("brolga-plains").farms[0]
    far, _ = drawn(farm, farm.zones[5], Pattern.ZIGZAG, 25)
    assert any((one.text or "").startswith("way in, ") for one in far.iter(f"{SVG}text"))
    near, _ = drawn(farm, farm.zones[1], Pattern.ZIGZAG, 25)
    assert any(one.text == "way in" for one in near.iter(f"{SVG}text"))
    none, _ = drawn(replace(farm, access=None), farm.zones[1], Pattern.ZIGZAG, 25)
    assert not any("way in" in (one.text or "") for one in none.iter(f"{SVG}text"))


def test_without_outline_or_layout_nothing_is_drawn() -> None:
    """The page says so instead."""
    client = example("brolga-plains")
    farm = client.farms[0]
    zone, protocol = farm.zones[0], client.protocols["topsoil-crop"]
    assert zone_map(zone, a_task(client, farm, zone, protocol), farm, 440, 380).svg == ""
    layout = a_layout(zone, farm, protocol.layers)
    undrawn = replace(zone, outline=None)
    assert zone_map(undrawn, a_task(client, farm, zone, protocol, layout=layout), farm, 440, 380).height == 0


def test_a_zone_of_which_nothing_is_left_shows_why() -> None:
    """All of it hatched, no points."""
    client = example("brolga-plains")
    farm = client.farms[0]
    task = a_task(client, farm, farm.zones[3], client.protocols["topsoil-crop"], layout=no_points(farm.zones[3]))
    found = zone_map(farm.zones[3], task, farm, 440, 380).svg
    assert "No points." in found
    assert "Hatched ground is kept away from." in found
