"""Text stays text until the schema asks for something else."""

from __future__ import annotations

from typing import Any

from soilrota.files.reading import check
from soilrota.files.schemas import SchemaSet
from soilrota.files.strict_yaml import parse_text

SCHEMA = {
    "type": "object",
    "properties": {
        "text": {"type": "string"},
        "day": {"type": "string", "format": "date"},
        "number": {"type": "number"},
        "flag": {"type": "boolean"},
        "free": {},
        "maybe": {"type": ["string", "null"]},
        "choice": {"enum": ["a", "b"]},
    },
}


def read(text: str) -> tuple[Any, list[str]]:
    """Read YAML text under the schema above."""
    root, _ = parse_text(text, "x.yaml")
    assert root is not None
    data, problems = check(root, "x.yaml", "x.schema.json", SchemaSet({"x.schema.json": SCHEMA}))
    return data, [problem.code for problem in problems]


def test_values_follow_the_schema() -> None:
    """Quotes or not, a value is what the schema says; where it says nothing, what YAML 1.2 says."""
    text = 'text: "no"\nday: 2027-02-15\nnumber: 1e2\nflag: true\nfree: [1, x, true]\nmaybe: ~\nchoice: b\n'
    data, codes = read(text)
    assert codes == []
    assert data == {
        "text": "no",
        "day": "2027-02-15",
        "number": 100.0,
        "flag": True,
        "free": [1, "x", True],
        "maybe": None,
        "choice": "b",
    }


def test_booleans_are_true_and_false_alone() -> None:
    """`yes` is refused where true is meant."""
    assert read("flag: yes\n")[1] == ["surprising-value"]
    assert read("flag: perhaps\n")[1] == ["surprising-value"]
    assert read('flag: "true"\n')[1] == ["wrong-type"]


def test_keys_that_are_read_as_something_else_are_refused() -> None:
    """An unknown key such as `on` may become another type in other readers."""
    assert read("yes: 1\n")[1] == ["key-not-text"]
