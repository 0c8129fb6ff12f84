"""What a worker answers about one file: every row accepted, waiting or closed; nothing is written."""

from __future__ import annotations

from datetime import date
from hashlib import sha256
from pathlib import Path

import pytest

from soilrota.batch.intake_values import IntakeAnswer, IntakeOrder
from soilrota.batch.intake_work import IntakeFaultError, take_in
from soilrota.batch.received import keep_bytes
from tests.acceptance.intake_book import add_laboratory, add_notes, row, table
from tests.acceptance.small_book import edit, tree

DAY = date(2027, 2, 15)


@pytest.fixture(autouse=True)
def _filled(book: Path) -> None:
    """Write a laboratory and field notes into the book."""
    add_laboratory(book)
    add_notes(book, "alder-farm", {"A1": "2027-02-01", "A2": "2027-02-01"})
    add_notes(book, "birch-farm", {"B1": "2027-02-01"})


def _take(book: Path, content: bytes, only: frozenset[int] | None = None) -> IntakeAnswer:
    """Look at a file whose bytes are safe already; see that nothing is written."""
    digest = sha256(content).hexdigest()
    keep_bytes(book, digest, content)
    before = tree(book)
    answer = take_in(IntakeOrder(book, digest, "feb.csv", "", DAY, DAY, only))
    assert tree(book) == before
    return answer


def _codes(answer: IntakeAnswer) -> dict[int, list[str]]:
    """Return the codes of the reasons of each row that waits."""
    return {one.number: [reason.code for reason in one.reasons] for one in answer.waiting}


def test_rows_of_two_clients_and_rows_that_wait(book: Path) -> None:
    """Each row is accepted or waits with its reasons; those that wait stand in a table."""
    answer = _take(book, table(row("A1"), row("A2", ph="many"), row("B1"), row("X1"), row("X1", p="99")))
    assert (answer.laboratory, answer.reports, answer.rows) == ("bench", ("R1",), 5)
    assert answer.accepted == (2, 4)
    assert _codes(answer) == {
        3: ["cell-refused"],
        5: ["bag-contradicts", "bag-unknown"],
        6: ["bag-contradicts", "bag-unknown"],
    }
    assert {file.client for file in answer.files} == {"alder-farm", "birch-farm"}
    assert answer.table is not None
    assert answer.table.decode("utf-8-sig").count("\n") == 4


def test_only_some_rows(book: Path) -> None:
    """Rows that were settled before are neither looked at nor counted."""
    content = table(row("A1"), row("A2"), row("X1"))
    answer = _take(book, content, frozenset({3, 4}))
    assert (answer.rows, answer.accepted, list(_codes(answer))) == (2, (3,), [4])


def test_a_row_that_the_practice_closed(book: Path) -> None:
    """It is neither accepted nor waits; a row that is named there and is not looked at stays out."""
    content = table(row("X1"), row("A1"))
    name = f"{sha256(content).hexdigest()[:12]}:2"
    edit(book / "practice.yaml", "night:", f"dismissed_rows: [{{row: {name}, reason: Not ours, by: ann-lee}}]\nnight:")
    answer = _take(book, content)
    assert answer.settled == {2: "closed by Ann Lee: Not ours"}
    assert (answer.accepted, answer.waiting, answer.table) == ((3,), (), None)
    assert _take(book, content, frozenset({3})).settled == {}


def test_a_client_with_errors(book: Path) -> None:
    """Its rows wait until its files are in order; those of others come in."""
    edit(book / "clients" / "alder-farm" / "client.yaml", "country: AU", "country: Austria")
    answer = _take(book, table(row("A1"), row("B1")))
    assert _codes(answer) == {2: ["client-has-errors"]}
    assert answer.accepted == (3,)


def test_a_file_of_which_nothing_can_be_read(book: Path) -> None:
    """It is refused as a whole, with reasons that name it."""
    for content in (b"", b"\x89PNG\r\n", b"a;b\n1;2\n"):
        answer = _take(book, content)
        assert answer.rows == 0
        assert {reason.place.file for reason in answer.refused} == {"inbox/feb.csv"}


def test_errors_that_all_clients_share(book: Path) -> None:
    """The file stays where it is, because nobody can say what its rows are."""
    edit(book / "practice.yaml", "time_zone:", "timezone:")
    with pytest.raises(IntakeFaultError, match="all clients share got errors"):
        _take(book, table(row("A1")))
