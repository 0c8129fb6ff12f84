"""From a document with places to located values: the way into lists and mappings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial
from typing import Any

from soilrota.book.parts import Located
from soilrota.files import Document
from soilrota.problems import Place


def whole(document: Document) -> Located[Mapping[str, Any]]:
    """Return the top of a document whose top is a mapping."""
    return Located(document.data, partial(_place, document), document.data)


def items(owner: Located[Any], key: str) -> Iterator[Located[Mapping[str, Any]]]:
    """Yield each entry of the list under `key`, nothing where the list is not written."""
    for i, data in enumerate(owner.data.get(key, ())):
        yield Located(data, partial(owner.at, key, i), data)


def _place(document: Document, *path: str | int) -> Place:
    """Return the place of the value at the path, or of the nearest one above that is written."""
    return document.place(*path)
