"""The files of a client's results: made where there are results and something changed, with the date of that."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from soilrota.batch.outputs import RESULTS_TABLE, RESULTS_WORKBOOK, document_file
from soilrota.batch.results_work import results_documents
from soilrota.batch.values import DocumentAnswer, Order
from soilrota.model.client import Client
from tests.documents.made import BOOK, example

DAY, LATER = date(2027, 2, 15), date(2027, 3, 1)


def _made(out: Path, client: Client, day: date, known: tuple[DocumentAnswer, ...] = ()) -> tuple[DocumentAnswer, ...]:
    """Return the files as made on a day by one who knows earlier ones; what is made is put in place."""
    order = Order(BOOK, out, client.id, day, {one.name: one.known for one in known})
    made = results_documents(order, client, ())
    for one in made:
        if one.content is not None:
            place = document_file(out, client.id, one.name)
            place.parent.mkdir(parents=True, exist_ok=True)
            place.write_bytes(one.content)
    return made


def test_none_without_results(tmp_path: Path) -> None:
    """A client in its first year has no such files."""
    assert _made(tmp_path, example("juniper-start"), DAY) == ()


def test_made_once_and_again_with_its_own_date(tmp_path: Path) -> None:
    """Left alone while right; the same bytes where one is gone; the other stays as it is."""
    client = example("glen-tarn")
    first = _made(tmp_path, client, DAY)
    assert [(one.name, one.known.day) for one in first] == [(RESULTS_WORKBOOK, DAY), (RESULTS_TABLE, DAY)]
    assert [one.content for one in _made(tmp_path, client, LATER, first)] == [None, None]
    document_file(tmp_path, client.id, RESULTS_WORKBOOK).unlink()
    again = _made(tmp_path, client, LATER, first)
    assert again[0] == first[0]
    assert again[1].content is None
