"""Values as if they had been read from a file, for builders that are tested by themselves."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from soilrota.book.parts import Located
from soilrota.problems import Place


def written(data: Mapping[str, Any], file: str = "client.yaml") -> Located[Mapping[str, Any]]:
    """Return the data as the top of a file whose places carry the path alone."""

    def at(*path: str | int) -> Place:
        return Place(file, 0, 0, "/".join(map(str, path)))

    return Located(data, at, data)
