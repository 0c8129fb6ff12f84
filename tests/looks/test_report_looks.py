"""Hard cases of the farm report, page by page: no empty page, no lonely heading, no word off the paper."""

from __future__ import annotations

import os
from dataclasses import replace

import pypdfium2
import pytest

from soilrota.documents import ReportGrounds, render_report, report_view
from tests.documents.made import AS_OF, BOOK
from tests.documents.reports import HARD_CASES, REPORTED, SIGNED, advised, grounds, grounds_of, many_zones, shares

LONG = bool(os.environ.get("SOILROTA_LONG"))
#: Forty zones make a hundred pages: by default a tenth of them.
SMALL = {"forty zones": lambda: many_zones(6)}
_MARGIN_PT = 40.0
_BODY_PT = (56.0, 785.0)


def advised_and_signed() -> ReportGrounds:
    """Return grounds with everything that a report can show."""
    found = advised()
    return replace(found, sign=SIGNED, judged=(shares(found.judged[0]), *found.judged[1:]))


CASES = {
    **{
        case: (lambda make=make, case=case: grounds_of((make if LONG else SMALL.get(case, make))()))
        for case, make in HARD_CASES.items()
    },
    "advised and signed": advised_and_signed,
    **({name: (lambda name=name: grounds(name)) for name in REPORTED} if LONG else {}),
}


@pytest.mark.parametrize("case", CASES)
def test_pages_are_fit_to_be_read(case: str) -> None:
    """Words lie within the margins; every page says something beyond head and foot, and none ends in a heading."""
    of_client = CASES[case]()
    farm = of_client.client.farms[0]
    view = report_view(of_client, farm)
    headings = {f"{zone.letter} {zone.name}" for zone in view.zones} | {
        "What matters most",
        "All zones at a glance",
        "How it was sampled",
        "How to read this",
        "Sources",
        "Signature",
        "Reckoned from the results",
        "Down the profile",
        "What to do",
    }
    document = pypdfium2.PdfDocument(render_report(view, AS_OF, BOOK))
    for number in range(len(document)):
        page = document[number]
        width, height = page.get_size()
        text = page.get_textpage()
        lines = []
        for index in range(text.count_rects()):
            left, bottom, right, top = text.get_rect(index)
            assert left >= _MARGIN_PT - 1
            assert right <= width - _MARGIN_PT + 1
            if height - _BODY_PT[1] <= bottom and top <= height - _BODY_PT[0]:
                lines.append((bottom, text.get_text_bounded(left, bottom, right, top).strip()))
        assert len(lines) > 3, f"page {number + 1} is all but empty"
        assert min(lines)[1] not in headings, f"page {number + 1} ends in a heading"
