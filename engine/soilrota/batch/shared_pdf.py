"""A document of the practice as PDF; where the practice's own template cannot be used, the one from before stands."""

from __future__ import annotations

from collections.abc import Callable
from hashlib import sha256

from soilrota.batch.values import DocumentAnswer, KnownDocument, Order, made_document
from soilrota.documents.faults import TemplateFaultError
from soilrota.problems import Problem


def shared_pdf(
    order: Order, name: str, make: Callable[[], bytes | None]
) -> tuple[tuple[DocumentAnswer, ...], tuple[Problem, ...]]:
    """Return a document of the practice, none where there is nothing to show, and what is wrong with its template.

    Args:
        order: what the worker is asked.
        name: of the file in the output folder.
        make: makes it.
    """
    try:
        content = make()
    except TemplateFaultError as fault:
        return _standing(order, name), (fault.problem,)
    return (() if content is None else (made_document(name, order.as_of, content),)), ()


def _standing(order: Order, name: str) -> tuple[DocumentAnswer, ...]:
    """Return the document as it lies in the output folder; none where it does not."""
    file = order.out / name
    if not file.is_file():
        return ()
    known = KnownDocument("", order.as_of, sha256(file.read_bytes()).hexdigest())
    return (DocumentAnswer(name, known, None, is_stale=True),)
