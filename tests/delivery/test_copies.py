"""The .eml files that people look at: always where the outbox says that the message is."""

from __future__ import annotations

from pathlib import Path

from soilrota.delivery.copies import copy_name, put_copies_right
from soilrota.delivery.values import Entry, Outcome, State
from tests.delivery.making import MORNING, new_entry, outbox_with


def _there(folder: Path) -> dict[str, bytes]:
    """Return the files below a folder."""
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_each_message_lies_once_where_it_is(tmp_path: Path) -> None:
    """Waiting, sent or not sent; the same again changes nothing; what somebody moved or deleted is put right."""
    folder = tmp_path / "outbox"
    names = ("al", "jo", "kim")
    with outbox_with(tmp_path / "outbox.sqlite", *map(new_entry, names), new_entry("bad", "nowhere")) as outbox:
        put_copies_right(outbox, folder)
        waiting = outbox.entries(State.WAITING)
        expected = {f"waiting/{copy_name(entry)}": outbox.eml(entry.id) for entry in waiting}
        assert _there(folder) == expected

        def settle(entry: Entry, state: State) -> None:
            outbox.begin(entry, MORNING, entry.address)
            outbox.settle(entry, Outcome(state, "as it is"), MORNING)

        settle(waiting[0], State.SENT)
        settle(waiting[1], State.UNSURE)
        put_copies_right(outbox, folder)
        expected = {
            f"sent/{copy_name(waiting[0])}": outbox.eml(waiting[0].id),
            f"not-sent/{copy_name(waiting[1])}": outbox.eml(waiting[1].id),
            f"waiting/{copy_name(waiting[2])}": outbox.eml(waiting[2].id),
        }
        assert _there(folder) == expected
        (folder / "sent" / copy_name(waiting[0])).unlink()
        moved = folder / "waiting" / copy_name(waiting[2])
        moved.rename(folder / "sent" / moved.name)
        (folder / "waiting" / copy_name(waiting[1])).write_bytes(b"old")
        (folder / "waiting" / f".~{moved.name}.7.tmp").write_bytes(b"half")
        put_copies_right(outbox, folder)
        assert _there(folder) == expected


def test_a_name_tells_day_and_id(tmp_path: Path) -> None:
    """So that files sort by day and people find the id to type."""
    with outbox_with(tmp_path / "outbox.sqlite", new_entry()) as outbox:
        (entry,) = outbox.entries()
    assert copy_name(entry) == f"2027-02-15-{entry.id}.eml"
