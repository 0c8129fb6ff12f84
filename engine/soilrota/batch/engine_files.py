"""Where the engine lies, and which libraries lie beside it: what else a night's files depend on than the book."""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from pathlib import Path

from soilrota.files import shipped

_PACKAGE = Path(__file__).resolve().parents[1]
_SHIPPED = ("schemas", "report_templates")


def engine_folders() -> tuple[Path, ...]:
    """Return the folders of the engine's code, tables, schemas and templates, none inside another."""
    return (_PACKAGE, *(folder for folder in map(shipped, _SHIPPED) if _PACKAGE not in folder.parents))


def libraries() -> set[str]:
    """Return the names and versions of the installed libraries."""
    found: set[str] = set()
    for folder in filter(None, sys.path):
        with suppress(OSError), os.scandir(folder) as entries:
            names = (entry.name for entry in entries)
            found |= {name for name in names if name.endswith(".dist-info") and not name.startswith(".")}
    return found
