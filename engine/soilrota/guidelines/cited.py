"""Cited tables: how a shipped YAML file is read, and what stands behind one of its figures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from soilrota.language import say
from soilrota.model.guideline import Source, Status

#: Ids of sources in which a table says that nobody published a figure, or that a publication was not read.
_OWN_WORDS = ("practice", "house", "memory", "sum")
_NOT_READ = "source not read"


@dataclass(frozen=True, slots=True)
class Cited:
    """What stands behind a figure.

    Attributes:
        source: where it comes from.
        status: whether it was read there.
        note: how it was worked out, where sources disagree, or what to mind; may be empty.
    """

    source: Source
    status: Status
    note: str = ""


@cache
def shipped_table(name: str) -> dict[str, Any]:
    """Return the content of the shipped table of a name, for instance `removal`."""
    file = Path(__file__).with_name(f"{name}.yaml")
    content: dict[str, Any] = yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return content


@cache
def sources_of(name: str) -> dict[str, Source]:
    """Return the sources that a shipped table names, by id."""
    return {row["id"]: Source(**row) for row in shipped_table(name)["sources"]}


def cited(name: str, row: Mapping[str, Any], *above: Mapping[str, Any]) -> Cited:
    """Return what stands behind a row of a shipped table.

    Args:
        name: name of the table.
        row: a mapping with `source` (an id), and perhaps `status` and `note`.
        above: what the row lies in, nearest first; it gives what the row itself leaves out.

    Raises:
        KeyError: nobody gives a source, or one that the table does not name: a fault of the table.
    """
    given: dict[str, Any] = {"status": Status.VERIFIED, "note": ""}
    for level in (*reversed(above), row):
        given |= {key: level[key] for key in ("source", "status", "note") if key in level}
    return Cited(sources_of(name)[given["source"]], Status(given["status"]), given["note"])


def said_source(source: Source) -> Source:
    """Return a source as it is cited in the language that is spoken.

    A publication keeps its title; what stands in place of one, such as `common practice, no source`, is said.

    >>> said_source(Source("practice", "common practice", 0, "no source")).title
    'no source'
    """
    if source.id not in _OWN_WORDS and source.author != _NOT_READ:
        return source
    author, title, where = (say(words) if words else "" for words in (source.author, source.title, source.where))
    return replace(source, author=author, title=title, where=where)
