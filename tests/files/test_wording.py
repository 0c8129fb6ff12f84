"""Findings of the validator in plain words."""

from __future__ import annotations

from soilrota.files.reading import check
from soilrota.files.schemas import SchemaSet
from soilrota.files.strict_yaml import parse_text
from soilrota.files.wording import described

SCHEMA = {
    "type": "object",
    "additionalProperties": False,
    "required": ["name"],
    "properties": {
        "name": {"type": "string", "title": "Name", "maxLength": 5, "pattern": "^[a-z]+$", "examples": ["abc"]},
        "list": {"type": "array", "items": {"type": "integer"}, "uniqueItems": True, "maxItems": 2},
        "area": {
            "type": "number",
            "exclusiveMinimum": 0,
            "description": "Area [ha]. Default: none.",
            "examples": [2.5],
        },
    },
    "if": {"required": ["list"]},
    "then": {"not": {"required": ["area"]}},
}


def said(text: str) -> list[str]:
    """Return the problems of YAML text under the schema above, without their places."""
    root, _ = parse_text(text, "x.yaml")
    assert root is not None
    _, problems = check(root, "x.yaml", "x.schema.json", SchemaSet({"x.schema.json": SCHEMA}))
    return [str(problem).partition(": ")[2] for problem in problems]


def test_no_jargon_reaches_a_person() -> None:
    """Patterns, keywords and types of the schema language never show."""
    for text in ("list: 3\n", "name: ABC\n", "name: abcdefgh\n", "name: a\narea: 0\n", "name: a\nlist: [1, 1, 2]\n"):
        for words in said(text):
            assert not any(jargon in words for jargon in ("regex", "[a-z]", "additionalProperties", "is not of type"))
            assert "To mend:" in words


def test_counts_have_their_plural() -> None:
    """One entry, two entries."""
    assert any("3 entries here; expected at most 2 entries" in words for words in said("name: a\nlist: [1, 2, 3]\n"))


def test_what_may_not_stand_together() -> None:
    """A key that contradicts another is said."""
    assert any("not-together" in words for words in said("name: a\nlist: [1]\narea: 2\n"))


def test_a_description_is_cut_before_its_default() -> None:
    """What a value means is told without what happens when it is left out."""
    assert described(SCHEMA["properties"]["area"]) == "area [ha], for instance 2.5"  # type: ignore[index]
