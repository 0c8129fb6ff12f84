"""What can still be read of a file with mistakes, so that the checks across files find theirs in the same run.

A value of the right kind that is merely too large, too long or repeated is kept; a key that may be left out is left
out where its value cannot be used. Where anything else is wrong, nothing is salvaged: guesses would raise problems
that nobody made.
"""

from __future__ import annotations

from collections.abc import Iterable
from copy import deepcopy
from dataclasses import dataclass
from typing import Any

from soilrota.files.document import Path
from soilrota.files.schemas import SchemaSet

_STILL_USABLE = frozenset(
    {"uniqueItems", "minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum", "minItems", "maxItems", "maxLength"}
)


@dataclass(frozen=True, slots=True)
class Fault:
    """A place where the schema was not kept: its path, and the keyword that was broken (`refused` for a word)."""

    path: Path
    keyword: str


def salvaged(data: Any, faults: Iterable[Fault], schemas: SchemaSet, file_name: str) -> tuple[Any, tuple[Path, ...]]:
    """Return the values that can be used, and the paths of the keys that were left out.

    Args:
        data: the values as read.
        faults: where the schema was not kept.
        schemas: the closed set of schemas.
        file_name: which schema the file is held against.

    Returns:
        None and no paths where a value that is needed cannot be used.
    """
    kept = deepcopy(data)
    left_out: list[Path] = []
    for fault in faults:
        if fault.keyword in _STILL_USABLE or any(fault.path[: len(path)] == path for path in left_out):
            continue
        if not fault.path or not isinstance(fault.path[-1], str) or fault.keyword == "required":
            return None, ()
        if fault.path[-1] in schemas.at(file_name, fault.path[:-1]).get("required", ()):
            return None, ()
        owner = kept
        for step in fault.path[:-1]:
            owner = owner[step]
        owner.pop(fault.path[-1], None)
        left_out.append(fault.path)
    return kept, tuple(left_out)
