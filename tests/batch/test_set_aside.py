"""Rows and files set aside: put in place, taken out row by row, gone when nothing waits."""

from __future__ import annotations

import csv
import io
from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.received import Received
from soilrota.batch.set_aside import FOLDER, keep_reasons, keep_rows, table_name, take_rows
from soilrota.problems import Place, error

RECORD = Received("ab" * 32, "north-bench/Results 12 Feb.csv", date(2027, 2, 15))
TABLE = (
    '\ufeff"","",Report,NB-1\r\nset aside as;because;Bag;P\r\n'
    'abababababab:4;"unknown | twice";B1;1,5\r\nabababababab:7;"line\nbreak";B2;2\r\n'
)


def test_names_that_any_system_can_have() -> None:
    """Words of the file's own name, then its digest; a name without letters has the digest alone."""
    assert table_name(RECORD) == "results-12-feb-abababababab.csv"
    assert table_name(Received("cd" * 32, "лаб.csv", date(2027, 2, 15))) == "cdcdcdcdcdcd.csv"


@pytest.mark.parametrize("sign", [",", ";", "\t"])
def test_rows_leave_the_table_one_by_one(tmp_path: Path, sign: str) -> None:
    """Others stay as they are, headings and rows above them too; without rows the table goes."""
    table = TABLE.replace(";", sign)
    keep_rows(tmp_path, RECORD, table.encode())
    path = tmp_path / FOLDER / table_name(RECORD)
    take_rows(tmp_path, RECORD, {99})
    assert path.read_bytes() == table.encode()
    take_rows(tmp_path, RECORD, {4})
    text = path.read_text(encoding="utf-8-sig")
    rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=sign))
    assert [row[0] for row in rows][1:] == ["set aside as", "abababababab:7"]
    assert "break" in rows[2][1]
    take_rows(tmp_path, RECORD, {7})
    assert not path.exists()
    take_rows(tmp_path, RECORD, {7})


def test_reasons_beside_a_file_that_could_not_be_read(tmp_path: Path) -> None:
    """They stand while the file is refused, with the place of its bytes, and go afterwards."""
    reason = error("not-a-table", Place("inbox/a.csv"), "it looks like a picture", "a table", "send a table")
    refused = Received(RECORD.digest, "a.csv", RECORD.received_on, refused=(reason,))
    keep_reasons(tmp_path, refused)
    path = tmp_path / FOLDER / "a-abababababab.txt"
    assert "it looks like a picture" in path.read_text(encoding="utf-8")
    assert f"records/received/{RECORD.digest}.file" in path.read_text(encoding="utf-8")
    keep_reasons(tmp_path, Received(RECORD.digest, "a.csv", RECORD.received_on))
    assert not path.exists()
