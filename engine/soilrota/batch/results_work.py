"""What a worker does for the results of a client: workbook and table, as far as those on disk are not right already."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date

from soilrota.batch.fingerprints import same_file
from soilrota.batch.outputs import RESULTS_TABLE, RESULTS_WORKBOOK, document_file
from soilrota.batch.values import DocumentAnswer, Order, made_document
from soilrota.documents import results_data, results_digest, results_table, results_workbook
from soilrota.model.client import Client
from soilrota.model.result_findings import ResultFinding


def results_documents(order: Order, client: Client, findings: Iterable[ResultFinding]) -> tuple[DocumentAnswer, ...]:
    """Return the files of a client's results; none where it has no result.

    A file of which the content is the one in the ledger keeps its date; any other is dated by the as-of date.

    Args:
        order: what the worker was asked.
        client: the client.
        findings: what is odd about its results.
    """
    if not client.results:
        return ()
    data = results_data(client, findings)
    digest = results_digest(data)
    return (
        _document(order, RESULTS_WORKBOOK, digest, lambda day: results_workbook(data, day)),
        _document(order, RESULTS_TABLE, digest, lambda _: results_table(data)),
    )


def _document(order: Order, name: str, digest: str, make: Callable[[date], bytes]) -> DocumentAnswer:
    """Return one file, made only where the one on disk is not of this content."""
    known = order.known.get(name)
    same = known is not None and known.view == digest
    if known is not None and same and same_file(document_file(order.out, order.client, name), known.output):
        return DocumentAnswer(name, known, None)
    day = known.day if known is not None and same else order.as_of
    return made_document(name, day, make(day), digest)
