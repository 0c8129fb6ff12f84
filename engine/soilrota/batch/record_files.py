"""Where small records of one client lie in the book: asked every night, so nothing heavy is loaded for it."""

from __future__ import annotations

from pathlib import Path

SIGNATURES = "records/signatures"


def signature_file(root: Path, client: str) -> Path:
    """Return where the signatures of a client's report are recorded."""
    return root / SIGNATURES / f"{client}.jsonl"
