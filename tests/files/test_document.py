"""Paths in words."""

from __future__ import annotations

from soilrota.files.document import Node, path_text, place_of


def test_a_path_reads_like_an_address() -> None:
    """Keys are joined by points, positions stand in brackets."""
    assert path_text(("farms", 0, "zones", 2, "area_ha")) == "farms[0].zones[2].area_ha"
    assert path_text(()) == ""


def test_the_nearest_place_above_is_given() -> None:
    """What is not written has the place of what would hold it."""
    root = Node(1, 1, entries=[(Node(1, 1, "farms", plain=True), Node(2, 3, items=[Node(2, 5, "home", plain=True)]))])
    assert str(place_of(root, "x", ("farms", 0))) == "x:2:5"
    assert str(place_of(root, "x", ("farms", 7))) == "x:2:3"
    assert str(place_of(root, "x", ("zones",))) == "x:1:1"
    assert str(place_of(root, "x", ("farms",), key=True)) == "x:1:1"
