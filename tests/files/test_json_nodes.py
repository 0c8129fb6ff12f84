"""Strict JSON with places, against the standard library's reader."""

from __future__ import annotations

import json
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.files.document import Node
from soilrota.files.json_nodes import parse_json_text

VALUES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(10**9), 10**9)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(alphabet=st.characters(exclude_categories=["Cs", "Cc", "Cf"])),
    lambda inner: (
        st.lists(inner, max_size=4) | st.dictionaries(st.text("abc", min_size=1, max_size=4), inner, max_size=4)
    ),
    max_leaves=20,
)


def plain(node: Node) -> Any:
    """Return the value of a node as the standard library's reader gives it."""
    if node.entries is not None:
        return {key.text: plain(value) for key, value in node.entries}
    if node.items is not None:
        return [plain(item) for item in node.items]
    return json.loads(node.text or "") if node.plain else node.text


@settings(max_examples=200, deadline=None)
@given(st.dictionaries(st.text("xyz", min_size=1, max_size=3), VALUES, max_size=4), st.sampled_from([None, 0, 2]))
def test_what_is_written_is_read(value: dict[str, Any], indent: int | None) -> None:
    """Any object written by the standard library is read the same (text composed, as everywhere)."""
    text = json.dumps(value, indent=indent)
    node, problems = parse_json_text(text, "map.geojson")
    assert problems == ()
    assert node is not None
    import unicodedata

    expected = json.loads(unicodedata.normalize("NFC", json.dumps(value, ensure_ascii=False)))
    assert plain(node) == expected


@settings(max_examples=300, deadline=None)
@given(st.text(alphabet='{}[],:"\\ae1.-+ \n') | st.text())
def test_it_accepts_nothing_that_the_standard_reader_refuses(text: str) -> None:
    """No text raises; what is accepted is JSON for the standard reader too."""
    node, problems = parse_json_text(text, "map.geojson")
    if node is not None:
        json.loads(text)
    else:
        assert problems


def test_places() -> None:
    """Places are lines and columns from one."""
    node, _ = parse_json_text('{\n  "a": [1,\n    {"b": 2}]\n}', "map.geojson")
    assert node is not None
    inner = node.child("a").child(1).child("b")  # type: ignore[union-attr]
    assert inner is not None
    assert (inner.line, inner.column, inner.text) == (3, 11, "2")
