"""The log of a night as JSON lines, added to a file: one line an event, flushed as it happens."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import IO, Any

from soilrota.batch.faults import CannotStartError


class LogLines:
    """Adds lines to a log; without a file it keeps nothing.

    Every line has `at` (the moment, UTC, ISO 8601) and `event`; what else it has depends on the event.
    """

    def __init__(self, path: Path | None) -> None:
        """Open the file for adding.

        Raises:
            CannotStartError: it cannot be written.
        """
        self._file: IO[str] | None = None
        if path is None:
            return
        try:
            self._file = path.open("a", encoding="utf-8")
        except OSError as fault:
            raise CannotStartError(f"the log {path} cannot be written: {fault.strerror}") from fault

    def add(self, event: str, **fields: Any) -> None:
        """Add a line.

        Args:
            event: what happened, for instance `client`.
            fields: what is said of it; values that JSON does not know are written as text.
        """
        if self._file is not None:
            line = {"at": datetime.now(UTC).isoformat(timespec="milliseconds"), "event": event, **fields}
            self._file.write(json.dumps(line, ensure_ascii=False, default=str) + "\n")
            self._file.flush()

    def close(self) -> None:
        """Close the file."""
        if self._file is not None:
            self._file.close()
