"""Whether what the ledger says of a client still stands, and what is said of a client for which it does."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from pathlib import Path

from soilrota.batch.book_facts import BookFacts
from soilrota.batch.fingerprints import same_files
from soilrota.batch.ledger import ClientRecord
from soilrota.batch.outputs import client_folder, document_name
from soilrota.batch.values import DocumentEntry, Entry, Outcome


def stands(record: ClientRecord, inputs: str, engine: str, as_of: date, out: Path) -> bool:
    """Return whether a client need not be looked at: same files, same engine, an answer that holds, documents in place.

    A client whose files have errors has the same errors on any date, and no documents to hold against them.
    """
    if (record.inputs, record.engine) != (inputs, engine):
        return False
    if record.outcome is Outcome.PROBLEMS:
        return True
    files = {name: known.output for name, known in record.documents.items()}
    return record.as_of <= as_of <= record.holds_until and same_files(client_folder(out, record.client), files)


def entry_of(record: ClientRecord) -> Entry:
    """Return what is said of a client for which the ledger's record stands."""
    outcome = Outcome.UNCHANGED if record.outcome is Outcome.MADE else record.outcome
    documents = tuple(
        DocumentEntry(document_name(record.client, name), known.day, known.output, made=False)
        for name, known in sorted(record.documents.items())
    )
    return Entry(
        client=record.client,
        outcome=outcome,
        problems=record.problems,
        documents=documents if outcome is Outcome.UNCHANGED else (),
        tasks=len(record.rows),
    )


def folder_entries(facts: BookFacts, wanted: Iterable[str]) -> dict[str, Entry]:
    """Return what is said of the wanted clients whose folders have an error themselves, by name."""
    entries = {}
    for name in sorted(set(facts.unreadable) & set(wanted)):
        of_folder = tuple(
            problem for problem in facts.problems if problem.place.file.split("/")[:2] == ["clients", name]
        )
        entries[name] = Entry(name, Outcome.PROBLEMS, problems=of_folder)
    return entries
