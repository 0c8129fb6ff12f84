"""The inbox: which files lie there, which of them are whole, and what is left alone.

A file lies in `inbox/`, or in `inbox/<laboratory>/` where its laboratory cannot be told from its headings. It is whole
when neither its size nor its time of change moved for as long as the practice says; one that is younger is looked at a
second time after that long, and left for the next night where it moved.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

INBOX = "inbox"
#: Largest file that is looked at at all [byte]: far beyond every table that is read, and little enough to be held.
LARGEST = 256 << 20
#: How programs name what they are still fetching or writing, and what desktops leave about: common practice, no source.
_UNFINISHED = (".part", ".partial", ".crdownload", ".download", ".filepart", ".tmp", ".swp")
_LITTER = ("thumbs.db", "desktop.ini", "readme.md", "readme.txt")


@dataclass(frozen=True, slots=True)
class Dropped:
    """A file of the inbox.

    Attributes:
        path: where it lies.
        name: its path below the inbox, with forward slashes.
        laboratory: id of the laboratory that its folder names; empty where it lies in the inbox itself.
    """

    path: Path
    name: str
    laboratory: str


@dataclass(frozen=True, slots=True)
class LeftAlone:
    """Something in the inbox that was not taken in, and why, in words."""

    name: str
    reason: str


def look_through(
    root: Path, quiet_s: float, now: Callable[[], float], wait: Callable[[float], None]
) -> tuple[tuple[Dropped, ...], tuple[LeftAlone, ...]]:
    """Return the files of the inbox that are whole, by name, and what was left alone.

    Args:
        root: the book's folder.
        quiet_s: how long a file must have been quiet [s].
        now: tells the time [s since 1970].
        wait: lets time pass [s].

    Raises:
        OSError: the inbox cannot be listed.
    """
    found = list(_found(root / INBOX))
    files = [one for one in found if isinstance(one, Dropped)]
    alone = [one for one in found if isinstance(one, LeftAlone)]
    before = {file.name: _state(file.path) for file in files}
    youngest = max((changed for _, changed in before.values()), default=0.0)
    still_s = quiet_s - (now() - youngest)
    if still_s > 0:
        wait(min(still_s, quiet_s))
    whole = []
    for file in files:
        size, changed = _state(file.path)
        if size > LARGEST:
            alone.append(
                LeftAlone(file.name, f"it holds {size:,} bytes, more than any laboratory's table; take it out")
            )
            continue
        if (size, changed) != before[file.name] or 0 <= now() - changed < quiet_s:
            alone.append(LeftAlone(file.name, "it is still being written; the next night looks again"))
        elif size >= 0:
            whole.append(file)
    return tuple(whole), tuple(sorted(alone, key=lambda one: one.name))


def _found(inbox: Path) -> Iterator[Dropped | LeftAlone]:
    """Yield what lies in the inbox and in its folders, by name; hidden entries are passed over."""
    for entry in _entries(inbox):
        if entry.is_dir() and not entry.is_symlink():
            yield from (_judged(below, f"{entry.name}/{below.name}", entry.name) for below in _entries(entry))
        else:
            yield _judged(entry, entry.name, "")


def _entries(folder: Path) -> Iterable[Path]:
    """Return the entries of a folder that are no litter, by name; none where there is no folder."""
    if not folder.is_dir():
        return ()
    return sorted(
        entry
        for entry in folder.iterdir()
        if not entry.name.startswith((".", "~$")) and entry.name.casefold() not in _LITTER
    )


def _judged(path: Path, name: str, laboratory: str) -> Dropped | LeftAlone:
    """Return a file, or why an entry is left alone."""
    if path.is_symlink() or not path.is_file():
        return LeftAlone(name, "it is no plain file; only files in inbox/ and inbox/<laboratory>/ are taken in")
    plain = os.fsencode(name).decode(errors="replace")
    if plain != name:
        return LeftAlone(plain, "its name is not written in UTF-8; give it another one")
    if path.name.casefold().endswith(_UNFINISHED):
        return LeftAlone(name, "its name says that it is still being written")
    return Dropped(path, name, laboratory)


def _state(path: Path) -> tuple[int, float]:
    """Return size [byte] and time of change [s since 1970] of a file; -1 and 0 where it is gone."""
    try:
        state = path.stat()
    except OSError:
        return -1, 0.0
    return (state.st_size, state.st_mtime) if stat.S_ISREG(state.st_mode) else (-1, 0.0)
