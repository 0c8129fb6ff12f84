"""When a client need not be looked at."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from hashlib import sha256
from pathlib import Path

import pytest

from soilrota.batch.ledger import ClientRecord
from soilrota.batch.outputs import document_file
from soilrota.batch.standing import entry_of, stands
from soilrota.batch.values import KnownDocument, Outcome

AS_OF, UNTIL = date(2027, 2, 15), date(2027, 2, 20)
CONTENT = b"a document"
RECORD = ClientRecord(
    client="alder-farm",
    inputs="files",
    engine="engine",
    as_of=AS_OF,
    holds_until=UNTIL,
    outcome=Outcome.MADE,
    rows=({"zone": "flat"},),
    problems=(),
    documents={"programme.pdf": KnownDocument("view", AS_OF, sha256(CONTENT).hexdigest())},
)


@pytest.fixture
def placed(out: Path) -> Path:
    """Return an output folder that holds the document of the record."""
    path = document_file(out, "alder-farm", "programme.pdf")
    path.parent.mkdir(parents=True)
    path.write_bytes(CONTENT)
    return out


@pytest.mark.parametrize(
    ("day", "expected"),
    [(date(2027, 2, 14), False), (AS_OF, True), (UNTIL, True), (date(2027, 2, 21), False)],
)
def test_it_stands_from_its_date_to_the_last_day_it_holds(placed: Path, day: date, *, expected: bool) -> None:
    """Both ends are included; a day before or after is looked at."""
    assert stands(RECORD, "files", "engine", day, placed) is expected


def test_other_files_or_another_engine_are_looked_at(placed: Path) -> None:
    """A digest that differs is enough."""
    assert not stands(RECORD, "other files", "engine", AS_OF, placed)
    assert not stands(RECORD, "files", "other engine", AS_OF, placed)


def test_a_missing_or_damaged_document_is_looked_at(out: Path, placed: Path) -> None:
    """The file on disk must be the one that was recorded; a record without documents never stands."""
    document_file(out, "alder-farm", "programme.pdf").write_bytes(CONTENT[:-1])
    assert not stands(RECORD, "files", "engine", AS_OF, placed)
    document_file(out, "alder-farm", "programme.pdf").unlink()
    assert not stands(RECORD, "files", "engine", AS_OF, placed)
    assert not stands(replace(RECORD, documents={}), "files", "engine", AS_OF, placed)


def test_errors_stand_on_any_date_without_documents(out: Path) -> None:
    """Files with errors have the same errors tomorrow, and nothing is said of earlier documents."""
    record = replace(RECORD, outcome=Outcome.PROBLEMS)
    assert stands(record, "files", "engine", date(2030, 1, 1), out)
    assert entry_of(record).outcome is Outcome.PROBLEMS
    assert entry_of(record).documents == ()


def test_what_is_said_of_a_client_that_stands() -> None:
    """Unchanged, with its documents and the number of its tasks."""
    entry = entry_of(RECORD)
    assert (entry.outcome, entry.tasks, entry.tries) == (Outcome.UNCHANGED, 1, 0)
    assert [(made.file, made.day, made.made) for made in entry.documents] == [
        ("clients/alder-farm/programme.pdf", AS_OF, False)
    ]
