"""Where records lie in the book that are asked for every night, so that nothing heavy is loaded for it."""

from __future__ import annotations

from pathlib import Path

OUTBOX = "records/outbox.sqlite"
SIGNATURES = "records/signatures"


def signature_file(root: Path, client: str) -> Path:
    """Return where the signatures of a client's report are recorded."""
    return root / SIGNATURES / f"{client}.jsonl"
