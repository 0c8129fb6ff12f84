"""The .eml files that people look at: one a message, in a folder that says where it is.

The outbox alone decides what is sent; these files are copies of what it holds, put right after every change.
"""

from __future__ import annotations

from pathlib import Path

from soilrota.delivery.outbox import Outbox
from soilrota.delivery.values import Entry, State
from soilrota.files import replace_file, sweep_leftovers

_FOLDERS = {
    State.WAITING: "waiting",
    State.PUT_OFF: "waiting",
    State.SENDING: "waiting",
    State.SENT: "sent",
    State.UNSURE: "not-sent",
    State.REFUSED: "not-sent",
    State.GIVEN_UP: "not-sent",
}


def copy_name(entry: Entry) -> str:
    """Return the name of a message's file."""
    return f"{entry.key.day.isoformat()}-{entry.id}.eml"


def put_copies_right(outbox: Outbox, folder: Path) -> None:
    """Have every message of the outbox lie once below the folder: under `waiting`, `sent` or `not-sent`.

    Raises:
        OSError: the folder cannot be written.
    """
    if folder.is_dir():
        sweep_leftovers(folder)
    there = {name: _names(folder / name) for name in sorted(set(_FOLDERS.values()))}
    for entry in outbox.entries():
        name, wanted = copy_name(entry), _FOLDERS[entry.state]
        others = [other for other, names in there.items() if other != wanted and name in names]
        if name not in there[wanted]:
            if others:
                (folder / wanted).mkdir(parents=True, exist_ok=True)
                (folder / others.pop() / name).replace(folder / wanted / name)
            elif eml := outbox.eml(entry.id):
                replace_file(folder / wanted / name, eml)
        for other in others:
            (folder / other / name).unlink(missing_ok=True)


def _names(folder: Path) -> frozenset[str]:
    """Return the names of the files of a folder."""
    return frozenset(path.name for path in folder.iterdir()) if folder.is_dir() else frozenset()
