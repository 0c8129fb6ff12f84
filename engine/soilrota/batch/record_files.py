"""Where records lie in the book that are asked for every night, so that nothing heavy is loaded for it."""

from __future__ import annotations

from pathlib import Path

LEDGER = "records/ledger.sqlite"
LOCK = "records/night.lock"
OUTBOX = "records/outbox.sqlite"
#: What a night saw that had nothing to do.
STILL = "records/still.json"
SIGNATURES = "records/signatures"


def signature_file(root: Path, client: str) -> Path:
    """Return where the signatures of a client's report are recorded."""
    return root / SIGNATURES / f"{client}.jsonl"
