"""What a night has read once: each checked client lies in a folder of the night, for the steps that come after.

A value is found by the digest of all files that it was read from, so it is what reading them again would give. The
folder belongs to one process and goes with it; what cannot be kept or found there is read from the book.
"""

from __future__ import annotations

import os
import pickle
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import TypeVar, cast

_Value = TypeVar("_Value")


@dataclass(slots=True)
class _Place:
    """Where this process keeps what it read; nowhere before it is told."""

    folder: Path | None = None


_PLACE = _Place()


def keep_in(folder: Path | None) -> None:
    """Keep what is read from now on, and look for it, in a folder that no other user can read; None for nowhere."""
    _PLACE.folder = folder


def once(digest: Callable[[], str], read: Callable[[], _Value]) -> _Value:
    """Return what `read` gives, or gave to any process of the night while the digest was the same.

    Args:
        digest: returns what stands for everything that is read.
        read: reads it.
    """
    if _PLACE.folder is None:
        return read()
    before = digest()
    path = _PLACE.folder / sha256(before.encode()).hexdigest()
    with suppress(OSError, EOFError, pickle.UnpicklingError):
        return cast("_Value", pickle.loads(path.read_bytes()))  # noqa: S301 - written by our own workers
    value = read()
    if digest() == before:
        with suppress(OSError):
            _put(path, pickle.dumps(value))
    return value


def _put(path: Path, content: bytes) -> None:
    """Write a file that others see whole or not at all; it need not outlive the machine."""
    beside = path.with_suffix(f".{os.getpid()}")
    beside.write_bytes(content)
    beside.replace(path)
