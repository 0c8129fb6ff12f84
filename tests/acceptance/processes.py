"""Processes that a command starts: which still run, and how much memory they took."""

from __future__ import annotations

import re
import time
from pathlib import Path

_GONE_WITHIN_S = 2.0
_PEAK = re.compile(r"VmHWM:\s+([0-9]+) kB")


def session(leader: int) -> list[int]:
    """Return the processes of a session that still run."""
    found = []
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit():
            try:
                fields = (entry / "stat").read_text(encoding="utf-8").rpartition(")")[2].split()
            except OSError:
                continue
            if fields[3] == str(leader) and fields[0] != "Z":
                found.append(int(entry.name))
    return found


def all_gone(leader: int) -> bool:
    """Return whether the processes of a session are gone in time."""
    until = time.monotonic() + _GONE_WITHIN_S
    while session(leader):
        if time.monotonic() > until:
            return False
        time.sleep(0.05)
    return True


def peak_memory(leader: int) -> int:
    """Return the largest resident memory that any process of a session has had so far [byte]."""
    peak = 0
    for process in session(leader):
        try:
            found = _PEAK.search(Path(f"/proc/{process}/status").read_text(encoding="utf-8"))
        except OSError:
            continue
        peak = max(peak, int(found[1]) << 10 if found else 0)
    return peak
