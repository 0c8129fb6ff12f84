"""Records of laboratory files: they come back equal, and what waits leaves the list with a word."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.received import (
    FOLDER,
    Received,
    keep_bytes,
    keep_received,
    read_received,
    received_file,
    received_of,
)
from soilrota.problems import Place, error, warning

REASON = error("bag-unknown", Place("inbox/a.csv", 4, 1), "the bag 'Ñ1' is not known", "", "correct the id")
RECORD = Received(
    digest="ab" * 32,
    name="Ergebnisse Übersicht.csv",
    received_on=date(2027, 2, 15),
    laboratory="north-bench",
    reports=("NB-1", "NB-2"),
    rows=3,
    accepted=(2, 3),
    waiting={4: (REASON,)},
    settled={},
    notes=(warning("unknown-heading", Place("inbox/a.csv", 1, 9), "the heading 'Cd'", "", "declare it"),),
    remarks=("one",),
    corrected={"alder-farm": ("P",)},
    rests_on="r",
)


def test_what_is_kept_is_given_back(tmp_path: Path) -> None:
    """A record comes back equal, alone and among all; none is there before."""
    assert received_of(tmp_path, RECORD.digest) is None
    assert list(read_received(tmp_path)) == []
    keep_received(tmp_path, RECORD)
    assert received_of(tmp_path, RECORD.digest) == RECORD
    assert list(read_received(tmp_path)) == [RECORD]


def test_bytes_are_kept_whole(tmp_path: Path) -> None:
    """Bytes under their digest; a file that was cut short is put right."""
    keep_bytes(tmp_path, "d", b"bag\n")
    received_file(tmp_path, "d").write_bytes(b"b")
    keep_bytes(tmp_path, "d", b"bag\n")
    assert received_file(tmp_path, "d").read_bytes() == b"bag\n"


def test_open_while_anything_waits() -> None:
    """A record is open while a row waits or nothing could be read; a row that is settled no longer waits."""
    assert RECORD.is_open
    done = RECORD.without({4: "dismissed: not ours", 9: "never waited"})
    assert not done.is_open
    assert done.settled == {4: "dismissed: not ours"}
    assert Received("d", "n", date(2027, 2, 15), refused=(REASON,)).is_open
    assert RECORD.short == "abababababab"


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"digest": 1}'])
def test_a_damaged_record_is_named(tmp_path: Path, text: str) -> None:
    """Nobody guesses what a damaged record said."""
    path = tmp_path / FOLDER / "x.json"
    path.parent.mkdir(parents=True)
    path.write_text(text, encoding="utf-8")
    with pytest.raises(ValueError, match=r"x\.json is damaged"):
        list(read_received(tmp_path))
