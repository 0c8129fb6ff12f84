"""Quick jobs for the step of reports: nothing is set in type."""

from __future__ import annotations

from datetime import timedelta
from hashlib import sha256

from soilrota.batch.fingerprints import same_file
from soilrota.batch.outputs import report_name
from soilrota.batch.report_values import MadeReport, ReportAnswer, ReportOrder
from soilrota.batch.values import KnownDocument

PLAIN = f"{__name__}:plain"
FAILS = f"{__name__}:fails"
HOLDS_DAYS = 10


def plain(order: ReportOrder) -> ReportAnswer:
    """Answer with what `says.txt` says; signed where it begins with `signed`; nothing where it is empty."""
    text = (order.root / "says.txt").read_text()
    holds = order.as_of + timedelta(days=HOLDS_DAYS)
    if not text:
        return ReportAnswer(order.client, holds, ())
    file = report_name(order.client, "home", is_signed=text.startswith("signed"))
    view = sha256(text.encode()).hexdigest()
    known = order.known.get(file)
    day = known.day if known is not None and known.view == view else order.as_of
    content = f"{day} {text}".encode()
    made = KnownDocument(view, day, sha256(content).hexdigest())
    return ReportAnswer(
        order.client, holds, (MadeReport(file, made, None if same_file(order.out / file, made.output) else content),)
    )


def fails(order: ReportOrder) -> ReportAnswer:
    """Go wrong."""
    raise ValueError(order.client)
