"""From a worker's answer to files in place, the ledger's rows and what is said of the client, in that order."""

from __future__ import annotations

import sqlite3
from datetime import date
from pathlib import Path

from soilrota.batch.ledger import ClientRecord, Ledger
from soilrota.batch.outputs import document_file, document_name
from soilrota.batch.values import Answer, Cause, DocumentEntry, Entry, Failure, Outcome
from soilrota.files import replace_file
from soilrota.problems import has_errors


class Settler:
    """Puts answers in place; `faults` holds, in words, what could not be written, and then the night should end."""

    def __init__(self, out: Path, as_of: date, engine: str, ledger: Ledger, known: dict[str, ClientRecord]) -> None:
        """Take the open ledger and what it knows; `known` is kept up to date."""
        self._out = out
        self._as_of = as_of
        self._engine = engine
        self._ledger = ledger
        self._known = known
        self.faults: list[str] = []

    def settle(self, answer: Answer | Failure) -> Entry:
        """Put an answer in place and return what is said of its client."""
        if isinstance(answer, Failure):
            return Entry(
                answer.client,
                Outcome.FAILED,
                answer.words,
                answer.cause,
                tries=answer.tries,
                trace=answer.trace,
            )
        try:
            self._put_in_place(answer)
            self._remember(answer)
        except (OSError, sqlite3.Error) as fault:
            words = getattr(fault, "strerror", None) or str(fault)
            self.faults.append(f"{answer.client}: could not be written: {words}")
            return Entry(
                answer.client,
                Outcome.FAILED,
                f"could not be written: {words}",
                Cause.NOT_WRITTEN,
                problems=answer.problems,
                took_s=answer.took_s,
                tries=1,
            )
        return self._entry(answer)

    def _put_in_place(self, answer: Answer) -> None:
        """Replace the documents that were made, and remove those that there is no longer anything to show in."""
        for document in answer.documents:
            if document.content is not None:
                replace_file(document_file(self._out, answer.client, document.name), document.content)
        earlier = self._known.get(answer.client)
        if earlier is not None and not has_errors(answer.problems):
            for name in sorted(set(earlier.documents) - {document.name for document in answer.documents}):
                document_file(self._out, answer.client, name).unlink(missing_ok=True)

    def _remember(self, answer: Answer) -> None:
        """Write the client's rows of the ledger; a client with errors keeps its last known season rows."""
        earlier = self._known.get(answer.client)
        wrong = has_errors(answer.problems)
        record = ClientRecord(
            client=answer.client,
            inputs=answer.inputs,
            engine=self._engine,
            as_of=self._as_of,
            holds_until=answer.holds_until or date.max,
            outcome=Outcome.PROBLEMS if wrong else Outcome.MADE,
            rows=earlier.rows if wrong and earlier else answer.rows,
            problems=answer.problems,
            visits=earlier.visits if wrong and earlier else answer.visits,
            missing=earlier.missing if wrong and earlier else answer.missing,
            documents={
                **(earlier.documents if earlier and wrong else {}),
                **{document.name: document.known for document in answer.documents},
            },
        )
        self._ledger.keep(record)
        anew = [document.name for document in answer.documents if not document.is_stale]
        self._ledger.unmark_overtaken(answer.client, anew)
        self._known[answer.client] = record

    def _entry(self, answer: Answer) -> Entry:
        """Return what is said of a client whose answer is in place."""
        made = any(document.content is not None for document in answer.documents)
        outcome = Outcome.MADE if made else Outcome.UNCHANGED
        if has_errors(answer.problems):
            outcome = Outcome.PROBLEMS
        documents = tuple(
            DocumentEntry(
                document_name(answer.client, document.name),
                document.known.day,
                document.known.output,
                made=document.content is not None,
            )
            for document in answer.documents
        )
        return Entry(
            client=answer.client,
            outcome=outcome,
            problems=answer.problems,
            documents=documents,
            tasks=len(self._known[answer.client].rows),
            took_s=answer.took_s,
            tries=1,
        )
