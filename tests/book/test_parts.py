"""Values with their places."""

from __future__ import annotations

from tests.book.written import written


def test_another_value_in_the_same_place() -> None:
    """Holding another value keeps places and writing."""
    one = written({"id": "a"})
    other = one.holding(5)
    assert (other.value, other.data, other.at("id")) == (5, {"id": "a"}, one.at("id"))
