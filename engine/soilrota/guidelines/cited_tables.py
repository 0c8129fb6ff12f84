"""Cited tables: a shipped YAML file that names its sources once, and figures with their range, source and status.

Such a file holds `sources` (id: author, year, title, where), `formulas` (by quantity: formula, source, status), and
tables of its own; each row or table names its source, and its status where the figure was not read there.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from soilrota.model.guideline import Source, Status

_FOLDER = Path(__file__).parent


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure with the range that is published for it, or that we keep to.

    Attributes:
        value: the figure.
        low, high: range, in the same unit; taken as what holds 95 of 100.
        source: where it comes from.
        status: whether it was read there.
    """

    value: float
    low: float
    high: float
    source: Source
    status: Status = Status.VERIFIED


@dataclass(frozen=True, slots=True)
class CitedTable:
    """A shipped file: its content as it stands, and its sources by id."""

    content: Mapping[str, Any]
    sources: Mapping[str, Source]

    def source(self, row: Mapping[str, Any]) -> Source:
        """Return the source that a row names."""
        return self.sources[row["source"]]

    def figure(self, row: Mapping[str, Any]) -> Figure:
        """Return a row of `value`, `low` and `high` as a figure; without a range it is taken as exact."""
        value = float(row["value"])
        return Figure(
            value, float(row.get("low", value)), float(row.get("high", value)), self.source(row), status_of(row)
        )

    def formula(self, quantity: str) -> tuple[Source, Status]:
        """Return where the formula of a quantity comes from, and whether it was read there."""
        row = self.content["formulas"][quantity]
        return self.source(row), status_of(row)


@cache
def cited_table(name: str) -> CitedTable:
    """Return a shipped file by its name without the ending."""
    content: dict[str, Any] = yaml.load((_FOLDER / f"{name}.yaml").read_text(encoding="utf-8"), yaml.CSafeLoader)
    sources = {id_: Source(id=id_, **row) for id_, row in content["sources"].items()}
    return CitedTable(content, sources)


def status_of(row: Mapping[str, Any]) -> Status:
    """Return the status of a row: verified where it names none."""
    return Status(row.get("status", "verified"))


def weakest(*statuses: Status) -> Status:
    """Return unverified where any of these is.

    >>> weakest(Status.VERIFIED, Status.UNVERIFIED).value
    'unverified'
    """
    return Status.UNVERIFIED if Status.UNVERIFIED in statuses else Status.VERIFIED


def citation(source: Source) -> str:
    """Return a source as it is cited in a line: author, year, title, where; parts that it lacks are left out.

    >>> citation(Source("x", "Doe and Roe", 1999, "On soil", "table 2"))
    'Doe and Roe (1999), On soil, table 2'
    """
    author = f"{source.author} ({source.year})" if source.author and source.year else source.author
    return ", ".join(part for part in (author, source.title, source.where) if part)
