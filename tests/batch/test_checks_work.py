"""The document of laboratory checks from a book: made, empty, or a fault in words."""

from __future__ import annotations

import io
import shutil
from datetime import date
from pathlib import Path

import pypdf
import pytest

from soilrota.batch.checks_work import CHECKS_PDF, ChecksFaultError, make_checks
from soilrota.batch.values import Order

BOOK = Path(__file__).resolve().parents[2] / "example_clients"
DAY = date(2027, 2, 15)


@pytest.fixture
def shared_book(tmp_path: Path) -> Path:
    """Return a copy of what the example book shares, with its records of check samples."""
    for name in ("practice.yaml", "protocols.yaml", "check_samples.csv", "logo.png"):
        shutil.copy(BOOK / name, tmp_path / name)
    shutil.copytree(BOOK / "laboratories", tmp_path / "laboratories")
    shutil.copytree(BOOK / "records" / "check_samples", tmp_path / "records" / "check_samples")
    return tmp_path


def order(root: Path, day: date = DAY) -> Order:
    """Return an order for the document."""
    return Order(root, root / "out", "laboratory checks", day)


def test_the_example_book_has_one(shared_book: Path) -> None:
    """One document, the same bytes again, that says which laboratory is off for what; nothing is written."""
    before = sorted(shared_book.rglob("*"))
    answer = make_checks(order(shared_book))
    (document,) = answer.documents
    assert (document.name, answer.problems, answer.holds_until) == (CHECKS_PDF, (), date.max)
    assert document.content is not None
    text = " ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(document.content)).pages)
    assert "North Bench Laboratory is off for Colwell P." in " ".join(text.split())
    assert make_checks(order(shared_book)).documents == answer.documents
    assert sorted(shared_book.rglob("*")) == before


def test_it_holds_until_the_next_report(shared_book: Path) -> None:
    """Before the first report there is nothing to show; a later one ends the answer the day before."""
    answer = make_checks(order(shared_book, date(2025, 1, 1)))
    assert (answer.documents, answer.holds_until) == ((), date(2025, 3, 3))
    assert make_checks(order(shared_book, date(2027, 1, 10))).holds_until == date(2027, 1, 10)


def test_damage_is_said(shared_book: Path) -> None:
    """A damaged record is a located problem; an error in the shared files is a fault in words."""
    record = shared_book / "records" / "check_samples" / "north-bench.csv"
    record.write_text(record.read_text(encoding="utf-8").replace("37.5", "37,5"), encoding="utf-8")
    answer = make_checks(order(shared_book))
    assert answer.documents == ()
    assert answer.problems[0].place.file == "records/check_samples/north-bench.csv"
    (shared_book / "check_samples.csv").write_text("bag\n", encoding="utf-8")
    with pytest.raises(ChecksFaultError, match=r"check_samples\.csv"):
        make_checks(order(shared_book))
