"""Cited tables: every row has a source that the file names, and a status."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from soilrota.guidelines.cited_tables import citation, cited_table, status_of, weakest
from soilrota.model.guideline import Source, Status

TABLES = ("salinity", "cations", "carbon", "bulk_density", "texture_clay", "laboratory_spread")


def rows_of(node: Any) -> Iterator[dict[str, Any]]:
    """Yield every mapping in a file's content."""
    if isinstance(node, dict):
        yield node
        for value in node.values():
            yield from rows_of(value)
    elif isinstance(node, list):
        for value in node:
            yield from rows_of(value)


@pytest.mark.parametrize("name", TABLES)
def test_every_source_is_declared_and_used(name: str) -> None:
    """No row names a source that is not there; no source stands idle; each can be cited."""
    table = cited_table(name)
    content = {key: value for key, value in table.content.items() if key != "sources"}
    named = {row[key] for row in rows_of(content) for key in ("source", "threshold_source") if key in row}
    extra = {"cookbook"} if name == "bulk_density" else set()  # of the mean of the formulas
    assert named | extra == set(table.sources)
    assert all(citation(source) for source in table.sources.values())
    assert all(status_of(row) in Status for row in rows_of(content))


@pytest.mark.parametrize("name", TABLES)
def test_ranges_hold_their_figures(name: str) -> None:
    """Low, value and high in order."""
    for row in rows_of(cited_table(name).content):
        if {"value", "low", "high"} <= row.keys():
            assert row["low"] <= row["value"] <= row["high"]


def test_what_is_from_memory_says_so() -> None:
    """A source that is memory makes its rows unverified."""
    for name in TABLES:
        for row in rows_of(cited_table(name).content):
            if row.get("source") == "memory":
                assert status_of(row) is Status.UNVERIFIED


def test_citation_and_weakest() -> None:
    """What a source lacks is left out; one unverified part is enough."""
    assert citation(Source("x", "FAO", 0, "Paper 61", "annex 1")) == "FAO, Paper 61, annex 1"
    assert citation(Source("x", "", 0, "common practice, no source")) == "common practice, no source"
    assert weakest() is Status.VERIFIED
    assert weakest(Status.VERIFIED, Status.UNVERIFIED) is Status.UNVERIFIED
