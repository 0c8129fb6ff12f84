"""From nodes to values, guided by the schema: text stays text unless the schema asks for something else."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from soilrota.files.document import Node, Path, path_text
from soilrota.files.scalars import kind_of, number, number_fault
from soilrota.files.schemas import Schema, SchemaSet
from soilrota.files.suggest import nearest_name
from soilrota.problems import Place, Problem, error

_TYPES = {"string", "number", "integer", "boolean", "null", "object", "array"}


@dataclass(slots=True)
class Typing:
    """Turns the nodes of one file into values.

    Attributes:
        schemas: the closed set.
        name: the file's name in the book.
        problems: what is wrong with single words and keys.
        refused: paths whose value was refused, so that nothing else is said of them.
        unknown: paths of keys that the schema does not know.
    """

    schemas: SchemaSet
    name: str
    problems: list[Problem] = field(default_factory=list)
    refused: set[Path] = field(default_factory=set)
    unknown: list[Path] = field(default_factory=list)

    def value(self, node: Node, schema: Schema, home: str, path: Path = ()) -> Any:
        """Return the value of a node under a resolved schema."""
        if node.entries is not None:
            return self._mapping(node, schema, home, path)
        if node.items is not None:
            return [self._below(item, schema, home, (*path, index)) for index, item in enumerate(node.items)]
        return self._scalar(node, schema, path)

    def _below(self, node: Node, schema: Schema, home: str, path: Path) -> Any:
        """Return the value of a property or an item."""
        inner, inner_home = self.schemas.below(schema, home, path[-1])
        return self.value(node, inner, inner_home, path)

    def _mapping(self, node: Node, schema: Schema, home: str, path: Path) -> dict[str, Any]:
        """Return a mapping without the keys that the schema does not know."""
        values: dict[str, Any] = {}
        properties = schema.get("properties", {})
        closed = schema.get("additionalProperties") is False
        for key, value in node.entries or ():
            word = key.text or ""
            if closed and word not in properties:
                self._unknown_key(key, properties, path)
                continue
            if word not in properties and key.plain and kind_of(word):
                self._refuse(
                    key, "key-not-text", f"the key '{word}' may be read as {kind_of(word)}", _quote(word), path
                )
                continue
            values[word] = self._below(value, schema, home, (*path, word))
        return values

    def _unknown_key(self, key: Node, properties: dict[str, Any], path: Path) -> None:
        """Note a key that the schema does not know, with the one probably meant."""
        self.unknown.append((*path, key.text or ""))
        near = nearest_name(key.text or "", properties)
        expected = f"one of {', '.join(sorted(properties))}" if properties else "no key here"
        mend = f"write '{near}'" if near else "take it out, or correct its spelling"
        place = Place(self.name, key.line, key.column, path_text((*path, key.text or "")))
        self.problems.append(error("unknown-key", place, f"'{key.text}' is not a known key", expected, mend))

    def _refuse(self, node: Node, code: str, found: str, mend: str, path: Path) -> None:
        """Note a word that cannot stand as it is, and say nothing else of it."""
        self.problems.append(error(code, Place(self.name, node.line, node.column, path_text(path)), found, "", mend))
        self.refused.add(path)

    def _scalar(self, node: Node, schema: Schema, path: Path) -> Any:
        """Return the value of a single word."""
        text = node.text or ""
        wanted = _wanted(schema)
        if not node.plain:
            return text
        if kind_of(text) == "nothing":
            if "null" in wanted:
                return None
            self._refuse(node, "empty-value", "nothing stands here", "write a value, or take the line out", path)
            return None
        if "boolean" in wanted:
            return self._boolean(node, text, path)
        if wanted & {"number", "integer"}:
            return self._number(node, text, path, also_text="string" in wanted)
        if "string" in wanted:
            return self._text(node, text, schema, path)
        return text if wanted else _untold(text)

    def _boolean(self, node: Node, text: str, path: Path) -> Any:
        """Return true or false; other words for them are refused."""
        if text in {"true", "false"}:
            return text == "true"
        meant = "true" if text.lower() in {"y", "yes", "on", "true"} else "false"
        mend = f"write {meant}" if kind_of(text) == "yes or no" else "write true or false"
        self._refuse(node, "surprising-value", f"'{text}' is neither true nor false", mend, path)
        return None

    def _number(self, node: Node, text: str, path: Path, *, also_text: bool) -> Any:
        """Return a number; forms that readers take differently are refused."""
        value = number(text)
        if value is not None:
            return value
        if also_text and not kind_of(text):
            return text
        found, mend = number_fault(text)
        code = "surprising-value" if kind_of(text) == "a number" else "not-a-number"
        self._refuse(node, code, found, mend, path)
        return None

    def _text(self, node: Node, text: str, schema: Schema, path: Path) -> str:
        """Return text; words that may be read as something else want quotes."""
        kind = kind_of(text)
        if kind and not (kind == "a date" and schema.get("format") == "date"):
            found = f"'{text}' without quotes may be read as {kind}"
            self._refuse(node, "needs-quotes", found, _quote(text), path)
        return text


def _untold(text: str) -> Any:
    """Return a word that the schema says nothing of: a number or true or false where it is one, else text."""
    if text in {"true", "false"}:
        return text == "true"
    value = number(text)
    return text if value is None else value


def _quote(text: str) -> str:
    """Return the mend that puts quotes round a word."""
    return f'put it in quotes: "{text}"'


def _wanted(schema: Schema) -> set[str]:
    """Return the types that a schema asks for; text where it gives a list of texts to choose from."""
    types = schema.get("type", ())
    wanted = {types} if isinstance(types, str) else set(types)
    if not wanted and all(isinstance(choice, str) for choice in schema.get("enum", [0])):
        wanted = {"string"}
    return wanted & _TYPES
