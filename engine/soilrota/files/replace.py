"""Replaces files whole: whoever looks finds the old file or the new one, never half of one."""

from __future__ import annotations

import hashlib
import os
import re
from pathlib import Path

_LEFTOVER = re.compile(r"^\.~.+\.\d+\.tmp$")
_CHUNK = 1 << 20


def replace_file(path: Path, content: bytes) -> None:
    """Write the content beside the file, flush it, rename it over the file and flush the folder.

    The folder is made where it is missing.

    Raises:
        OSError: the disk is full or the place cannot be written; the old file is then untouched.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f".~{path.name}.{os.getpid()}.tmp")
    try:
        with beside.open("wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        beside.replace(path)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
    _flush_folder(path.parent)


def _flush_folder(folder: Path) -> None:
    """Make a rename in the folder last through a power cut."""
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def sweep_leftovers(folder: Path) -> tuple[Path, ...]:
    """Remove what an interrupted `replace_file` left anywhere below the folder; return what was removed."""
    found = tuple(sorted(path for path in folder.rglob(".~*.tmp") if _LEFTOVER.match(path.name)))
    for path in found:
        path.unlink(missing_ok=True)
    return found


def file_digest(path: Path) -> str:
    """Return the SHA-256 of a file's bytes in hexadecimal.

    Raises:
        OSError: the file cannot be read.
    """
    digest = hashlib.sha256()
    with path.open("rb") as file:
        while chunk := file.read(_CHUNK):
            digest.update(chunk)
    return digest.hexdigest()
