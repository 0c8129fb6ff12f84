"""What an unquoted word could be taken for."""

from __future__ import annotations

import pytest
import yaml

from soilrota.files.scalars import kind_of, number, number_fault

WORDS = [
    *["no", "NO", "Yes", "on", "y", "true", "~", "null", "", "012", "0x1F", "1_000", "22:30", "1e5", ".5", "1."],
    *[
        "+3",
        "-7",
        ".inf",
        "-.INF",
        ".nan",
        "0o17",
        "0b101",
        "2026-02-03",
        "2026-2-3",
        "2026-02-03T10:00:00",
        "190:20:30",
    ],
]


@pytest.mark.parametrize("word", WORDS)
def test_words_that_readers_turn_into_something_else_are_known(word: str) -> None:
    """Each word that YAML 1.1 or 1.2 takes for something other than text is known."""
    assert kind_of(word)


@pytest.mark.parametrize("word", ["home", "01-20", "A #1", "3 m", "river-flat", "1.2.3", "nope", "v1", "+61 3 5550"])
def test_plain_words_stay_text(word: str) -> None:
    """Ordinary words are text, for us and for a YAML 1.1 reader."""
    assert kind_of(word) == ""
    assert isinstance(yaml.safe_load(f"a: {word.replace(' #', '_')}")["a"], str)


def test_numbers_are_those_of_json() -> None:
    """Only the forms that every reader takes the same are numbers."""
    assert [number(word) for word in ["0", "-3", "2.50", "1e5", "1E-2"]] == [0, -3, 2.5, 100000.0, 0.01]
    assert [number(word) for word in ["012", "1_000", ".5", "5.", "+1", "0x1", "9" * 30, "1e999"]] == [None] * 8


@pytest.mark.parametrize(
    ("word", "mend"),
    [
        ("1_000", "write 1000"),
        ("012", "write 12"),
        ("11,8", "write 11.8"),
        (".5", "write 0.5"),
        ("x", "write a number"),
    ],
)
def test_the_mend_shows_the_number_meant(word: str, mend: str) -> None:
    """A number in another form is shown as it should be written."""
    assert number_fault(word)[1].startswith(mend)
