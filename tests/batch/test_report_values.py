"""What passes between the night and the worker of reports."""

from __future__ import annotations

import pickle
from datetime import date
from pathlib import Path

from soilrota.batch.report_values import MadeReport, ReportAnswer, ReportOrder
from soilrota.batch.values import KnownDocument


def test_orders_and_answers_travel_between_processes() -> None:
    """Unchanged."""
    known = KnownDocument("view", date(2027, 2, 1), "digest")
    order = ReportOrder(Path("book"), Path("out"), "anvil-creek", date(2027, 2, 1), {"a.pdf": known})
    answer = ReportAnswer("anvil-creek", date.max, (MadeReport("a.pdf", known, b"%PDF"),))
    assert pickle.loads(pickle.dumps((order, answer))) == (order, answer)  # noqa: S301 - our own
