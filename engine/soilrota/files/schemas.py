"""The shipped schemas as a closed set: no reference leaves the package, nothing is ever fetched."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from soilrota.files.document import Path as ValuePath
from soilrota.files.faults import SchemaError
from soilrota.files.shipped import shipped

Schema = dict[str, Any]


@dataclass(frozen=True, slots=True)
class SchemaSet:
    """All schemas of one folder, by file name.

    Attributes:
        by_name: `client.schema.json` → its content.
    """

    by_name: dict[str, Schema]
    _validators: dict[str, Any] = field(default_factory=dict, repr=False)

    def named(self, file_name: str) -> Schema:
        """Return the schema of a file name.

        Raises:
            SchemaError: there is none of that name.
        """
        try:
            return self.by_name[file_name]
        except KeyError:
            raise SchemaError(f"no schema is called {file_name}") from None

    def resolved(self, schema: Schema, home: str) -> tuple[Schema, str]:
        """Follow `$ref`s; return the schema meant, with what stands beside the reference, and its home file.

        Raises:
            SchemaError: a reference leads outside the package or nowhere.
        """
        while "$ref" in schema:
            file_name, _, pointer = str(schema["$ref"]).partition("#")
            home = file_name or home
            if home not in self.by_name:
                raise SchemaError(f"the reference {schema['$ref']!r} leaves the package; nothing is fetched")
            target: Any = self.by_name[home]
            for step in filter(None, pointer.split("/")):
                try:
                    target = target[step]
                except (KeyError, TypeError):
                    raise SchemaError(f"the reference {schema['$ref']!r} leads nowhere") from None
            beside = {key: value for key, value in schema.items() if key != "$ref"}
            schema = {**target, **beside}
        return schema, home

    def below(self, schema: Schema, home: str, step: str | int) -> tuple[Schema, str]:
        """Return the schema of a property or an item, resolved; an empty one where nothing is said of it."""
        if isinstance(step, int):
            inner = schema.get("items", {})
        else:
            inner = schema.get("properties", {}).get(step)
            if inner is None:
                extra = schema.get("additionalProperties")
                inner = extra if isinstance(extra, dict) else {}
        return self.resolved(inner, home)

    def at(self, file_name: str, path: ValuePath) -> Schema:
        """Return the resolved schema of the value at a path."""
        schema, home = self.resolved(self.named(file_name), file_name)
        for step in path:
            schema, home = self.below(schema, home, step)
        return schema

    def validator(self, file_name: str) -> Any:
        """Return the validator of one schema, made once."""
        if file_name not in self._validators:
            from soilrota.files.validators import make_validator  # noqa: PLC0415  # jsonschema loads slowly

            self._validators[file_name] = make_validator(self.by_name, file_name)
        return self._validators[file_name]


def load_schemas(folder: Path) -> SchemaSet:
    """Read every schema of a folder and follow each reference once.

    Raises:
        SchemaError: one is not JSON, or refers to something outside the folder.
    """
    by_name: dict[str, Schema] = {}
    for path in sorted(folder.glob("*.json")):
        try:
            by_name[path.name] = json.loads(path.read_text(encoding="utf-8"))
        except ValueError as fault:
            raise SchemaError(f"{path.name} is not JSON: {fault}") from fault
    schemas = SchemaSet(by_name)
    for name, schema in by_name.items():
        _follow_all(schemas, schema, name)
    return schemas


def _follow_all(schemas: SchemaSet, value: Any, home: str) -> None:
    """Follow each reference of a schema, so that a broken one is known at the start."""
    if isinstance(value, dict):
        if isinstance(value.get("$ref"), str):
            schemas.resolved({"$ref": value["$ref"]}, home)
        for inner in value.values():
            _follow_all(schemas, inner, home)
    elif isinstance(value, list):
        for inner in value:
            _follow_all(schemas, inner, home)


@cache
def shipped_schemas() -> SchemaSet:
    """Return the schemas that came with the engine."""
    return load_schemas(shipped("schemas"))
