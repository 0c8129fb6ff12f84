"""Copies of the example book, without what a night left in the original."""

from __future__ import annotations

import shutil
from pathlib import Path

EXAMPLE = Path(__file__).resolve().parents[1] / "example_clients"
_OF_A_NIGHT = (
    "ledger.sqlite*",
    "night.lock",
    "still.json",
    "outbox.sqlite*",
    "outbox",
    "issued",
    "received",
    "set_aside",
    "inbox",
)


def copy_example(to: Path) -> Path:
    """Return a copy of the example book as it is delivered."""
    return Path(shutil.copytree(EXAMPLE, to, ignore=shutil.ignore_patterns(*_OF_A_NIGHT)))
