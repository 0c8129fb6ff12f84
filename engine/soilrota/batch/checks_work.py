"""From the values of check samples to charts, and to the document that shows them. It writes nothing."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from pathlib import Path
from time import perf_counter

from soilrota.batch.check_bags import doubly_used
from soilrota.batch.check_records import read_all_check_values
from soilrota.batch.faults import BatchError
from soilrota.batch.reading import read_shared
from soilrota.batch.shared_pdf import shared_pdf
from soilrota.batch.values import Answer, Order
from soilrota.documents import checks_view, render_checks
from soilrota.guidelines.check_samples import check_limits, check_sources
from soilrota.model.check_values import CheckValue
from soilrota.model.practice import Practice
from soilrota.results.check_charts import laboratory_state, uncharted

CHECKS_PDF = "laboratory_checks.pdf"


class ChecksFaultError(BatchError):
    """The document of laboratory checks cannot be made."""


def make_checks(order: Order) -> Answer:
    """Make the document of laboratory checks; an answer without documents where there is nothing to show.

    The answer holds until the day before a report that is dated later than the order's as-of date. Its problems are
    those of the records, and ids of check samples that were given out to clients.

    Raises:
        ChecksFaultError: the files that all clients share got errors during the night.
    """
    began = perf_counter()
    shared, problems = read_shared(order.root)
    if shared is None:
        raise ChecksFaultError(f"the files that all clients share got errors during the night: {problems[0]}")
    values, found = read_all_check_values(order.root)
    documents, wrong = shared_pdf(
        order, CHECKS_PDF, lambda: checks_document(shared.practice, values, order.as_of, order.root)
    )
    later = [value.reported for value in values if value.reported > order.as_of]
    return Answer(
        client=order.client,
        inputs="",
        holds_until=min(later) - timedelta(1) if later else date.max,
        rows=(),
        documents=documents,
        problems=(*wrong, *found, *doubly_used(order.root, shared.practice.check_bags)),
        took_s=perf_counter() - began,
    )


def checks_document(practice: Practice, values: Sequence[CheckValue], as_of: date, root: Path) -> bytes | None:
    """Return the document of laboratory checks as PDF; None where no value has come back that can be charted.

    Args:
        practice: the practice with its check materials and laboratories.
        values: what laboratories reported.
        as_of: the as-of date; it dates the document.
        root: the book's folder, for the logo.
    """
    charts = laboratory_state(values, practice.check_materials, as_of)
    if not charts:
        return None
    known = [value for value in values if value.reported <= as_of]
    left = uncharted(known, practice.check_materials)
    view = checks_view(charts, practice, check_limits(), check_sources(), left)
    return render_checks(view, as_of, root)
