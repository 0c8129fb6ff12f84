"""Patterns and formats that jsonschema itself lets pass are checked, through references too."""

from __future__ import annotations

import pytest

from soilrota.files.validators import make_validator

SET = {
    "a.schema.json": {
        "$schema": "http://json-schema.org/draft-07/schema#",
        "properties": {"x": {"$ref": "b.schema.json#/definitions/word"}, "d": {"format": "date"}},
    },
    "b.schema.json": {
        "$schema": "http://json-schema.org/draft-07/schema#",
        "definitions": {"word": {"type": "string", "pattern": "^[a-z]+$"}},
    },
}


@pytest.mark.parametrize("value", ["../../etc", "abc\n", "ABC", "a b", ""])
def test_patterns_hold_for_the_whole_text(value: str) -> None:
    """Parts and trailing newlines do not pass."""
    assert not make_validator(SET, "a.schema.json").is_valid({"x": value})


def test_right_values_pass() -> None:
    """A word that fits, and a day, pass."""
    validator = make_validator(SET, "a.schema.json")
    assert validator.is_valid({"x": "abc", "d": "2027-02-15"})
    assert not validator.is_valid({"d": "2027-02-30"})


def test_digits_are_ascii() -> None:
    """Digits of other scripts are not digits here."""
    validator = make_validator({"a.schema.json": {"pattern": "^\\d+$"}}, "a.schema.json")
    assert validator.is_valid("12")
    assert not validator.is_valid("१२")
