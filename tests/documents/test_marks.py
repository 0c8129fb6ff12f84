"""Marks beside states."""

from __future__ import annotations

from xml.etree import ElementTree

from soilrota.documents.marks import state_mark
from soilrota.model.windows import State


def test_marks_differ_in_shape() -> None:
    """Marks of states that ask for different things differ without their colour."""
    shapes = {state: ElementTree.fromstring(state_mark(state)) for state in State}
    drawn = {
        tuple((part.tag, part.get("d"), part.text, part.get("fill") == "none") for part in root)
        for root in shapes.values()
    }
    assert len(drawn) == len(State) - 1
