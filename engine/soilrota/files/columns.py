"""The columns of a table: what each may hold, and what is said where a cell or the header is wrong."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from soilrota.files.cells import Cell
from soilrota.files.formats import fault, iso_day
from soilrota.files.scalars import number
from soilrota.files.schemas import Schema, SchemaSet
from soilrota.files.suggest import nearest_name
from soilrota.files.wording import described
from soilrota.problems import Place, Problem, error

_LONGEST_CELL = 5_000


@dataclass(frozen=True, slots=True)
class Column:
    """One column.

    Attributes:
        name: its name in the header.
        schema: its resolved schema.
        required: whether the header must have it.
    """

    name: str
    schema: Schema
    required: bool

    def value(self, text: str, place: Place) -> tuple[Any, Problem | None]:
        """Return the typed value of a cell, or None and what is wrong with it."""
        types = _types(self.schema)
        if not text:
            if "null" in types or not self.required:
                return None, None
            mend = f"write {described(self.schema)}"
            return None, error("empty-value", place, f"the cell of '{self.name}' is empty", "", mend)
        if text in self.schema.get("x-also", ()):
            return text, None
        if types & {"number", "integer"}:
            return self._number(text, place, whole="number" not in types)
        return self._text(text, place)

    def _number(self, text: str, place: Place, *, whole: bool) -> tuple[Any, Problem | None]:
        """Return a number within the bounds of the schema."""
        value = number(text)
        if value is None or (whole and value != int(value)):
            comma = re.fullmatch(r"-?[0-9]+,[0-9]+", text)
            found = f"'{text}' in '{self.name}' is no {'whole ' if whole else ''}number"
            mend = f"write {text.replace(',', '.')}" if comma else "write digits, with a point for decimals and no unit"
            return None, error("not-a-number", place, found, described(self.schema), mend)
        low, high = self.schema.get("minimum"), self.schema.get("maximum")
        if (low is not None and value < low) or (high is not None and value > high):
            found = f"{text} in '{self.name}' is out of range"
            mend = "check the number and its unit"
            return None, error("out-of-range", place, found, f"{_range(low, high)}: {described(self.schema)}", mend)
        return int(value) if whole else float(value), None

    def _text(self, text: str, place: Place) -> tuple[Any, Problem | None]:
        """Return text of the form that the schema asks for, or a day."""
        if len(text) > int(self.schema.get("maxLength", _LONGEST_CELL)):
            found = f"{len(text):,} characters in '{self.name}'"
            return None, error("too-long", place, found, "", "shorten it")
        choices = [choice for choice in self.schema.get("enum", ()) if choice is not None]
        if choices and text not in choices:
            near = nearest_name(text, choices)
            found = f"'{text}' in '{self.name}' is not known here"
            mend = f"write '{near}'" if near else f"write one of {', '.join(choices)}"
            return None, error("unknown-word", place, found, f"one of {', '.join(choices)}", mend)
        wanted = self.schema.get("format", "")
        wrong = fault(wanted, text)
        if wrong:
            found, mend = wrong
            also = "".join(f", or {word}" for word in self.schema.get("x-also", ()))
            return None, error(f"bad-{wanted}", place, f"{found}, in '{self.name}'", "", mend + also)
        pattern = self.schema.get("pattern")
        if pattern and not re.fullmatch(pattern.removeprefix("^").removesuffix("$"), text, re.ASCII):
            found = f"'{text[:80]}' in '{self.name}' has the wrong form"
            return None, error("wrong-form", place, found, described(self.schema), "correct its form")
        return (iso_day(text) if wanted == "date" else text), None


def columns_of(schemas: SchemaSet, file_name: str) -> dict[str, Column]:
    """Return the columns of a table schema by name, in its order.

    Raises:
        SchemaError: there is no such schema, or a reference leads nowhere.
    """
    schema = schemas.named(file_name)
    required = set(schema.get("required", ()))
    return {
        name: Column(name, schemas.below(schema, file_name, name)[0], name in required)
        for name in schema.get("properties", {})
    }


def header_problems(header: list[Cell], columns: Mapping[str, Column], name: str) -> tuple[Problem, ...]:
    """Return what is wrong with a header row."""
    split = not_commas(header, name)
    if split is not None:
        return (split,)
    return (*_unknown(header, columns, name), *_missing([cell.text for cell in header], columns, name))


def not_commas(header: list[Cell], name: str) -> Problem | None:
    """Return that a table is split by something else than commas; None where it is not."""
    only = header[0].text
    if len(header) > 1 or not any(mark in only for mark in (";", "\t")):
        return None
    mark = "semicolons" if ";" in only else "tabs"
    mend = "save it again with commas, and a point for decimals"
    return error("not-commas", Place(name, 1, 1), f"the table is split by {mark}", "commas", mend)


def _unknown(header: list[Cell], columns: Mapping[str, Column], name: str) -> Iterable[Problem]:
    """Yield columns that the table does not have, or that stand twice."""
    seen: set[str] = set()
    for cell in header:
        place = Place(name, cell.line, cell.column)
        if cell.text not in columns:
            near = nearest_name(cell.text, columns)
            mend = f"write '{near}'" if near else "take the column out"
            found = f"'{cell.text}' is not a column of this table"
            yield error("unknown-column", place, found, f"one of {', '.join(columns)}", mend)
        elif cell.text in seen:
            yield error("duplicate-column", place, f"the column '{cell.text}' stands twice", "", "take one out")
        seen.add(cell.text)


def _missing(names: list[str], columns: Mapping[str, Column], name: str) -> Iterable[Problem]:
    """Yield required columns that the header does not have."""
    for column in columns.values():
        if column.required and column.name not in names:
            mend = f"add the column '{column.name}': {described(column.schema)}"
            yield error("missing-column", Place(name, 1, 1), f"the column '{column.name}' is missing", "", mend)


def _types(schema: Schema) -> set[str]:
    """Return the types that a schema names."""
    types = schema.get("type", "string")
    return {types} if isinstance(types, str) else set(types)


def _range(low: float | None, high: float | None) -> str:
    """Return the bounds in words."""
    if low is None:
        return f"at most {high}"
    return f"at least {low}" if high is None else f"{low} to {high}"
