"""One night at a time: an advisory lock of the kernel, which frees it whatever way its holder ends.

The file says who holds it and is never what decides: a file left behind blocks nobody. The descriptor is closed on
exec (PEP 446), so no worker holds the lock on.
"""

from __future__ import annotations

import fcntl
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from soilrota.batch.faults import AnotherRunError, CannotStartError

_LONGEST_NOTE = 4096


@contextmanager
def night_lock(path: Path, started: str) -> Iterator[None]:
    """Hold the lock while the body runs.

    Args:
        path: the lock's file; its folder must be there.
        started: when the night started, for those who ask.

    Raises:
        AnotherRunError: another process holds it; the text names its process, machine and start.
        CannotStartError: the file cannot be written.
    """
    try:
        descriptor = os.open(path, os.O_RDWR | os.O_CREAT, 0o644)
    except OSError as fault:
        raise CannotStartError(f"the lock {path} cannot be written: {fault.strerror}") from fault
    try:
        try:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError as fault:
            raise AnotherRunError(_who(descriptor)) from fault
        os.ftruncate(descriptor, 0)
        os.pwrite(descriptor, f"process {os.getpid()}\non {os.uname().nodename}\nsince {started}\n".encode(), 0)
        yield
        os.ftruncate(descriptor, 0)
    finally:
        os.close(descriptor)


def _who(descriptor: int) -> str:
    """Return in words who holds the lock."""
    note = os.pread(descriptor, _LONGEST_NOTE, 0).decode(errors="replace")
    who = " ".join(note.split()) or "a process that has just begun"
    return f"another night is at work on this book: {who}"
