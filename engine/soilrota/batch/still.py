"""A night that finds everything as an earlier one left it, known by the size and times of every file, and soon over.

A night that had nothing to do keeps in `records/still.json` what it saw, what it said, and up to which day there is
nothing to do. While every file of the book, the output folder and the engine is the one that it saw, nights up to that
day open none of them: they put their own date into the season page and the report of the night.

A file that was written has another time of change (ctime), which no program can set, whatever became of its time of
modification. What was written within the same tick of the clock as the look itself would be missed; so the look is
taken only when the last change lies some ticks back, and nothing is kept where times are told in whole seconds.
"""

from __future__ import annotations

import json
import os
import re
import stat
import sys
from collections.abc import Callable, Iterator
from datetime import date
from hashlib import sha256
from pathlib import Path
from time import perf_counter
from typing import Any, NamedTuple

from soilrota.batch.engine_files import engine_folders, libraries
from soilrota.batch.faults import AnotherRunError, CannotStartError
from soilrota.batch.lock import night_lock
from soilrota.batch.outputs import RUN_FILE
from soilrota.batch.record_files import LEDGER, LOCK, STILL
from soilrota.batch.redating import PAGE_FILE, redated
from soilrota.files import replace_file

_FORM = 1
#: Kept out of what is compared: locks and companions of databases come and go, the others are looked at by themselves.
_OWN_RECORDS = frozenset({STILL, LOCK, LEDGER, f"{LEDGER}-wal", f"{LEDGER}-shm"})
_OWN_OUTPUT = frozenset({RUN_FILE, PAGE_FILE})
#: Ticks of the kernel are 10 ms apart at most: a change after this wait has a later time than one before it [s].
_TICKS_S = 0.03
_A_SECOND = 10**9
_HEAD = re.compile(r'"as_of": "[^"]*", "started": "[^"]*", "took_s": [0-9.]+')


class UnseenError(Exception):
    """A look cannot tell whether something changed: a folder behind a link, or no fine enough times."""


def look(root: Path, out: Path) -> str:
    """Return what stands for the state of all files that a night reads or writes, but for those of its own.

    Args:
        root: the book's folder.
        out: the output folder.

    Raises:
        UnseenError: it cannot tell whether something changed.
        OSError: a folder cannot be listed.
    """
    marks = [sys.version, *sorted(libraries())]
    for folder in engine_folders():
        marks += _marks(str(folder), frozenset())
    marks += _marks(str(root), _OWN_RECORDS)
    marks += _marks(str(out), _OWN_OUTPUT)
    return sha256("\n".join(marks).encode(errors="surrogateescape")).hexdigest()


def _marks(folder: str, apart: frozenset[str], inside: str = "") -> Iterator[str]:
    """Yield a line a file and folder below a folder, in order; hidden and compiled ones apart."""
    with os.scandir(folder) as found:
        entries = sorted(found, key=lambda entry: entry.name)
    for entry in entries:
        name = inside + entry.name
        if entry.name.startswith(".") or entry.name == "__pycache__" or name in apart:
            continue
        if entry.is_dir(follow_symlinks=False):
            yield f"{name}/"
            yield from _marks(entry.path, apart, f"{name}/")
        else:
            yield f"{name} {_mark(entry.path, entry.stat(follow_symlinks=False))}"


def _mark(path: str, seen: os.stat_result) -> str:
    """Return what stands for a file: where a link leads, what it leads to as well.

    Raises:
        UnseenError: it leads to a folder.
    """
    if not stat.S_ISLNK(seen.st_mode):
        return _told(seen)
    try:
        behind = os.stat(path)  # noqa: PTH116 - text paths: path objects would take longer than all the rest
    except OSError as fault:
        return f"{_told(seen)} {fault.errno}"
    if stat.S_ISDIR(behind.st_mode):
        raise UnseenError(path)
    return f"{_told(seen)} {_told(behind)}"


def _told(seen: os.stat_result) -> str:
    """Return what is told of a file."""
    return f"{seen.st_mode} {seen.st_ino} {seen.st_size} {seen.st_mtime_ns} {seen.st_ctime_ns}"


def settled_look(root: Path, out: Path, wait: Callable[[float], None]) -> str:
    """Return a look that tells every later change; arguments and errors as of `look`.

    Args:
        root: the book's folder.
        out: the output folder.
        wait: waits for so many seconds.
    """
    ledger = root / LEDGER
    if ledger.stat().st_ctime_ns % _A_SECOND == 0 and ledger.parent.stat().st_ctime_ns % _A_SECOND == 0:
        raise UnseenError("times are told in whole seconds")
    wait(_TICKS_S)
    return look(root, out)


def keep_still(root: Path, out: Path, night: dict[str, Any]) -> None:
    """Keep what a night saw and said that had nothing to do.

    Args:
        root: the book's folder.
        out: the output folder.
        night: `look`; `first` and `last` day (ISO 8601) on which it stands; `time_zone`; `clients` and `problems`, as
            they are told; the `sum` with `{day}` and `{took}` in it; and the `report` as it goes into the output.

    Raises:
        OSError: it cannot be written, or a file that goes with it cannot be read.
    """
    own = {
        "form": _FORM,
        "out": str(out.resolve()),
        "ledger": _told((root / LEDGER).stat()),
        "page": sha256((out / PAGE_FILE).read_bytes()).hexdigest(),
    }
    replace_file(root / STILL, json.dumps({**night, **own}, ensure_ascii=False).encode())


class Still(NamedTuple):
    """A night that had nothing to do.

    Attributes:
        as_of: the as-of date.
        took_s: how long it took [s].
        clients, problems: what is told of clients, and the problems of the book, as they were told before.
        sum: the night on one line.
    """

    as_of: date
    took_s: float
    clients: str
    problems: str
    sum: str


def still_night(root: Path, out: Path, started: str, today: Callable[[str], date]) -> Still | None:
    """Do what a night does that finds everything as an earlier one left it; return it, None where it is no such night.

    Args:
        root: the book's folder.
        out: the output folder.
        started: when the night starts, ISO 8601, for the lock and the report.
        today: returns the as-of date in a time zone (IANA name).
    """
    began = perf_counter()
    try:
        kept: dict[str, Any] = json.loads((root / STILL).read_bytes())
        day = today(kept["time_zone"])
        is_time = kept["first"] <= day.isoformat() <= kept["last"]
        if kept["form"] != _FORM or kept["out"] != str(out.resolve()) or not is_time:
            return None
        with night_lock(root / LOCK, started):
            page = (out / PAGE_FILE).read_bytes()
            if not _stands(root, out, kept, page):
                return None
            fresh = redated(page, day)
            if fresh != page:
                replace_file(out / PAGE_FILE, fresh)
            took = perf_counter() - began
            head = f'"as_of": "{day}", "started": "{started}", "took_s": {took:.3f}'
            replace_file(out / RUN_FILE, _HEAD.sub(lambda _: head, kept["report"], count=1).encode())
        return Still(day, took, kept["clients"], kept["problems"], kept["sum"])
    except (OSError, ValueError, KeyError, TypeError, UnseenError, AnotherRunError, CannotStartError):
        return None


def _stands(root: Path, out: Path, kept: dict[str, Any], page: bytes) -> bool:
    """Return whether every file is the one that was seen."""
    if kept["ledger"] != _told((root / LEDGER).stat()) or kept["look"] != look(root, out):
        return False
    bytes_then = redated(page, date.fromisoformat(kept["first"]))
    return bool(kept["page"] == sha256(bytes_then).hexdigest())
