"""One text for one meaning."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.batch.canonical import canonical, digest_of_texts
from soilrota.problems import Place

_LEAVES = st.none() | st.booleans() | st.integers(-9, 9) | st.text('ab,"\n', max_size=3)
_VALUES = st.recursive(
    _LEAVES, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text("ab", max_size=2), inner, max_size=3)
)


class Word(StrEnum):
    """A word."""

    ONE = "one"


@dataclass(frozen=True, slots=True)
class Inner:
    """A value with a place."""

    size: float
    place: Place | None


@dataclass(frozen=True, slots=True)
class Outer:
    """A value with all kinds of fields."""

    day: date
    inner: tuple[Inner, ...]
    word: Word = Word.ONE
    facts: dict[str, float] = field(default_factory=dict)
    where: Place | None = None


@dataclass(frozen=True, slots=True)
class Later:
    """The same value in a later engine, with one field more."""

    day: date
    inner: tuple[Inner, ...]
    word: Word = Word.ONE
    facts: dict[str, float] = field(default_factory=dict)
    where: Place | None = None
    more: str = ""


DAY = date(2027, 2, 4)
VALUE = Outer(DAY, (Inner(9, Place("a.csv", 2)), Inner(0.5, None)))


def test_the_text_of_a_value() -> None:
    """Fields by name, days in ISO 8601, no places, no defaults."""
    assert canonical(VALUE) == '{"day":"2027-02-04","inner":[{"size":9},{"size":0.5}]}'
    assert canonical(VALUE, without=("day",)) == '{"inner":[{"size":9},{"size":0.5}]}'


@pytest.mark.parametrize(
    "same",
    [
        Outer(DAY, (Inner(9.0, None), Inner(0.5, Place("b.csv", 7)))),
        Outer(DAY, (Inner(9.0 + 1e-13, None), Inner(0.5, None)), where=Place("c.csv")),
        Later(DAY, (Inner(9, None), Inner(0.5, None))),
    ],
)
def test_what_says_nothing_changes_nothing(same: object) -> None:
    """Places, the writing of a number, digits that nobody measured, a field of a later engine that nobody uses."""
    assert canonical(same) == canonical(VALUE)


@pytest.mark.parametrize(
    "other",
    [
        Outer(DAY, (Inner(9, None), Inner(0.5000001, None))),
        Outer(DAY, (Inner(0.5, None), Inner(9, None))),
        Outer(date(2027, 2, 5), VALUE.inner),
        Outer(DAY, VALUE.inner, facts={"a": 0.0}),
        Later(DAY, VALUE.inner, more="x"),
    ],
)
def test_what_says_something_changes_the_text(other: object) -> None:
    """A number, an order, a day, a fact."""
    assert canonical(other) != canonical(VALUE)


def test_small_things() -> None:
    """Sets have no order, nought has no sign, large whole numbers keep every digit."""
    assert canonical({"b", "a"}) == canonical(frozenset(("a", "b")))
    assert canonical(-0.0) == canonical(0)
    assert canonical(1234567890123456789) == "1234567890123456789"
    assert canonical([Word.ONE, None, True]) == '["one",null,true]'


@pytest.mark.parametrize("value", [object(), {1: "a"}, [b"a"], float])
def test_what_has_no_text_is_a_fault(value: object) -> None:
    """Nothing is written by a guess."""
    with pytest.raises(TypeError):
        canonical(value)


@given(st.lists(_VALUES, min_size=2, max_size=2))
@settings(max_examples=200, deadline=None)
def test_equal_texts_mean_equal_values(two: list[object]) -> None:
    """The text reads back as the value, whatever the order of its keys; so no two values have one text."""
    one, other = two
    assert json.loads(canonical(one)) == one
    assert (canonical(one) == canonical(other)) == (
        json.dumps(one, sort_keys=True) == json.dumps(other, sort_keys=True)
    )
    if isinstance(one, dict):
        assert canonical(dict(reversed(one.items()))) == canonical(one)


def test_digests_tell_texts_apart() -> None:
    """The digest is a SHA-256 of all texts in order."""
    assert len(digest_of_texts([])) == 64
    assert digest_of_texts(["a", "b"]) != digest_of_texts(["b", "a"]) != digest_of_texts(["a"])
