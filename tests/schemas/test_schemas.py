"""The schemas are the manual: every property is explained, every example is right."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft7Validator

from soilrota.files.schemas import shipped_schemas

SCHEMAS = shipped_schemas()
NAMES = sorted(SCHEMAS.by_name)
#: Numbers that have no unit of their own.
UNITLESS = frozenset({"map.schema.json.definitions.feature.id", "results.table.json.value"})
BOOK = Path(__file__).resolve().parents[2] / "example_clients"


def properties(schema: Any, where: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield every property of a schema with the way to it."""
    if isinstance(schema, dict):
        for name, inner in (schema.get("properties") or {}).items():
            of_conditions = ".if" in where or ".then" in where
            if isinstance(inner, dict) and not of_conditions and not where.endswith(".definitions"):
                yield f"{where}.{name}", inner
        for key, inner in schema.items():
            yield from properties(inner, f"{where}.{key}")
    elif isinstance(schema, list):
        for index, inner in enumerate(schema):
            yield from properties(inner, f"{where}[{index}]")


@pytest.mark.parametrize("name", NAMES)
def test_a_schema_is_draft_7_and_closed(name: str) -> None:
    """Each schema is valid draft-07, carries its own name, and refers to nothing on the network."""
    schema = SCHEMAS.by_name[name]
    Draft7Validator.check_schema(schema)
    assert schema["$id"] == name
    assert schema["$schema"] == "http://json-schema.org/draft-07/schema#"
    assert schema["title"]
    assert schema["description"]
    assert json.dumps(schema).count("http") == 1


@pytest.mark.parametrize("name", NAMES)
def test_every_property_is_explained(name: str) -> None:
    """Title, description and an example stand at each property; a number's description names its unit."""
    for where, schema in properties(SCHEMAS.by_name[name], name):
        resolved, _ = SCHEMAS.resolved(schema, name)
        assert resolved.get("title"), where
        assert resolved.get("description"), where
        assert "examples" in resolved or resolved.get("type") == "object", where
        types = resolved.get("type", ())
        if {"number", "integer"} & ({types} if isinstance(types, str) else set(types)) and where not in UNITLESS:
            assert "[" in resolved["description"] or "in the unit" in resolved["description"], where


@pytest.mark.parametrize("name", NAMES)
def test_examples_are_right(name: str) -> None:
    """Each example of a property holds against that property's own schema."""
    validator = SCHEMAS.validator(name)
    for where, schema in properties(SCHEMAS.by_name[name], name):
        for example in schema.get("examples", ()):
            if example == []:
                continue  # a list of long entries has none of its own
            found = list(
                validator.evolve(schema={"$id": name, **SCHEMAS.resolved(schema, name)[0]}).iter_errors(example)
            )
            assert found == [], where


@pytest.mark.parametrize("name", NAMES)
def test_patterns_hold_for_the_whole_text(name: str) -> None:
    """Every pattern is anchored at both ends, so that editors check what we check."""
    for where, schema in properties(SCHEMAS.by_name[name], name):
        pattern = schema.get("pattern")
        assert pattern is None or (pattern.startswith("^") and pattern.endswith("$")), where


def test_objects_are_closed() -> None:
    """No mapping of the book takes keys that nobody explained."""

    def objects(schema: Any, where: str) -> Iterator[str]:
        if isinstance(schema, dict):
            if "properties" in schema and "title" in schema and schema.get("additionalProperties") is not False:
                yield where
            for key, inner in schema.items():
                yield from objects(inner, f"{where}.{key}")

    assert [where for name in NAMES for where in objects(SCHEMAS.by_name[name], name)] == []


def test_every_yaml_file_of_the_example_book_has_its_modeline() -> None:
    """An editor finds the schema of each file from its first line."""
    files = sorted(BOOK.rglob("*.yaml"))
    assert files
    for file in files:
        first = file.read_text(encoding="utf-8").splitlines()[0]
        prefix = "# yaml-language-server: $schema="
        assert first.startswith(prefix), file
        assert (file.parent / first.removeprefix(prefix)).resolve().is_file(), file
