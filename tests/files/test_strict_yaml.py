"""YAML as a strict subset: bombs end at once, nothing raises, places are those of an editor."""

from __future__ import annotations

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.files.strict_yaml import parse_text

BOMBS = {
    "aliases": "a: &a [x,x]\n" + "".join(f"b{i}: &b{i} [*a,*a,*a]\n" for i in range(2000)),
    "merges": "a: &a {x: 1}\n" + "".join(f"b{i}: &b{i} {{<<: [*a,*a]}}\n" for i in range(2000)),
    "depth in flow": "a: " + "[" * 100_000,
    "depth in braces": "a: " + "{a: " * 100_000,
    "depth in blocks": "".join(" " * i + "a:\n" for i in range(1500)),
    "depth in dashes": "a:\n" + "- " * 50_000 + "x\n",
    "one long word": "a: " + "x" * 900_000,
    "many keys": "".join(f"k{i}: {i}\n" for i in range(30_000)),
}


@pytest.mark.parametrize("name", BOMBS)
def test_a_bomb_ends_at_once(name: str) -> None:
    """Each bomb is refused, or read, within seconds even when traced (milliseconds, as the benchmark shows)."""
    started = time.perf_counter()
    node, problems = parse_text(BOMBS[name], "client.yaml")
    assert time.perf_counter() - started < 5
    assert (node is not None) == (name == "many keys")
    assert bool(problems) == (name != "many keys")


def test_places_count_characters_from_one() -> None:
    """Lines and columns are those that an editor shows, letters with accents included."""
    node, problems = parse_text("näme: Ñandú\nfarms:\n  - id: home\n", "client.yaml")
    assert problems == ()
    assert node is not None
    value = node.child("näme")
    assert value is not None
    assert (value.line, value.column, value.text) == (1, 7, "Ñandú")
    farms = node.child("farms")
    assert farms is not None
    item = farms.child(0)
    assert item is not None
    assert (item.line, item.column) == (3, 5)


def test_text_is_composed() -> None:
    """A letter and its accent become one character, so that equal names are equal."""
    node, _ = parse_text("name: N\u0303andu\u0301\n", "client.yaml")
    assert node is not None
    assert node.child("name").text == "\u00d1and\u00fa"  # type: ignore[union-attr]


@settings(max_examples=300, deadline=None)
@given(st.text())
def test_any_text_gives_a_mapping_or_problems(text: str) -> None:
    """No text raises; without a mapping there is a problem with a place."""
    node, problems = parse_text(text, "client.yaml")
    assert (node is not None) or problems
    assert all(problem.place.line >= 1 for problem in problems)


@settings(max_examples=200, deadline=None)
@given(st.text(alphabet="ab:-[]{}#&*!|>'\"%@`,\n \t?<=0123.~"))
def test_any_text_of_signs_gives_a_mapping_or_problems(text: str) -> None:
    """The same for text made of the signs that mean something in YAML."""
    node, problems = parse_text(text, "client.yaml")
    assert (node is not None) or problems
