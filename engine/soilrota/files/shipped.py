"""Finds the folders that travel with the engine: in the wheel, or at the top of a checkout."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from soilrota.files.faults import MissingShippedFolderError

_PACKAGE = Path(__file__).resolve().parents[1]


@cache
def shipped(kind: str) -> Path:
    """Return the folder `schemas` or `report_templates` that belongs to this engine.

    Raises:
        MissingShippedFolderError: the installation is not whole.
    """
    for folder in (_PACKAGE / "_shipped" / kind, _PACKAGE.parents[1] / kind):
        if folder.is_dir():
            return folder
    raise MissingShippedFolderError(f"the folder {kind!r} did not come with this installation of soilrota")
