"""Records of advice: written once, read back equal, damage located."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from soilrota.agronomy.remembering import remembered
from soilrota.batch.advice_records import FOLDER, read_advice, write_advice
from soilrota.model.follow_up import AdviceRecord
from tests.agronomy.follow_ups import NEED, RECORD
from tests.documents.advised import CLIENTS, advised

DAY = date(2027, 4, 1)


def file_of(root: Path, name: str = "2027-04-01.json") -> Path:
    """Return a file of the record."""
    return root / FOLDER / RECORD.client / name


@pytest.mark.parametrize("client_id", CLIENTS)
def test_records_read_back_equal(client_id: str, tmp_path: Path) -> None:
    """All of the example book."""
    client, advice = advised(client_id)
    record = remembered(client, DAY, "d" * 64, advice.needs, advice.mixes)
    assert write_advice(tmp_path, record)
    assert read_advice(tmp_path, client_id) == ((record,), ())


def test_a_record_is_never_changed(tmp_path: Path) -> None:
    """The same again writes nothing; another of the day stands beside it, in the order of signing."""
    assert write_advice(tmp_path, RECORD)
    first = file_of(tmp_path).read_bytes()
    assert not write_advice(tmp_path, RECORD)
    others = [replace(RECORD, digest=f"{number:064d}") for number in range(11)]
    assert all(write_advice(tmp_path, one) for one in others)
    assert file_of(tmp_path).read_bytes() == first
    later = replace(RECORD, day=date(2027, 5, 1))
    assert write_advice(tmp_path, later)
    assert read_advice(tmp_path, RECORD.client) == ((RECORD, *others, later), ())


def test_nobody_was_advised(tmp_path: Path) -> None:
    """No folder, and files of other names, are no records."""
    assert read_advice(tmp_path, RECORD.client) == ((), ())
    file_of(tmp_path).parent.mkdir(parents=True)
    file_of(tmp_path, "notes.txt").write_text("x", encoding="utf-8")
    assert read_advice(tmp_path, RECORD.client) == ((), ())


def test_what_is_not_known_is_read_as_such(tmp_path: Path) -> None:
    """A need without a test, and a test without a factor."""
    record = replace(RECORD, needs=(replace(NEED, test=None),), rates=())
    write_advice(tmp_path, record)
    assert read_advice(tmp_path, RECORD.client) == ((record,), ())


def _swap(old: str, new: str) -> Callable[[str], str]:
    """Return a change of a text that holds the old words."""

    def change(text: str) -> str:
        assert old in text
        return text.replace(old, new, 1)

    return change


@pytest.mark.parametrize(
    ("change", "found", "line"),
    [
        (lambda _text: "", "the file ends too early", 1),
        (lambda text: text[:40], "", 3),
        (lambda _text: "[]", "no JSON object", 1),
        (_swap('"currency"', '"colour"'), "nothing is called colour here", 3),
        (_swap(' "currency": "AUD",\n', ""), "currency is missing", 1),
        (_swap('"day": "2027-04-01"', '"day": "2027-04-41"'), "2027-04-41 is no day", 4),
        (_swap('"amount": 14.0', '"amount": "14"'), "14 is no number", 8),
        (_swap('"input": "phosphorus"', '"input": "salt"'), "salt is no input of advice", 11),
        (_swap('"passes": 1', '"passes": 1.5'), "1.5 is no whole number", 0),
        (_swap('"needs": [', '"needs": {}, "old": ['), "", 0),
        (_swap('"client": "anvil-creek"', '"client": "other"'), "the advice is for other", 1),
    ],
)
def test_damage_is_located(change: Callable[[str], str], found: str, line: int, tmp_path: Path) -> None:
    """With the file, the line, and the mend; the other records are read all the same."""
    write_advice(tmp_path, RECORD)
    later = replace(RECORD, day=date(2027, 5, 1))
    write_advice(tmp_path, later)
    path = file_of(tmp_path)
    path.write_text(change(path.read_text(encoding="utf-8")), encoding="utf-8")
    records, problems = read_advice(tmp_path, RECORD.client)
    assert records == (later,)
    assert problems
    for problem in problems:
        assert problem.code == "damaged-advice"
        assert problem.place.file == f"{FOLDER}/{RECORD.client}/2027-04-01.json"
        assert "restore" in problem.mend
    assert found in problems[0].found
    assert line in {0, problems[0].place.line}


def test_the_record_is_an_advice_record() -> None:
    """The fields that the file holds are those of the model."""
    assert {"client", "day", "digest", "currency", "needs", "rates"} == set(AdviceRecord.__slots__)
