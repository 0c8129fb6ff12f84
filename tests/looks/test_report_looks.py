"""Hard cases of the farm report, page by page: no empty page, no lonely heading, no word off the paper."""

from __future__ import annotations

import os
from dataclasses import replace

import numpy as np
import pypdfium2
import pytest

from soilrota.documents import ReportGrounds, render_report, report_view
from soilrota.documents.report_views import MatterView
from tests.documents.made import AS_OF, BOOK
from tests.documents.reports import HARD_CASES, REPORTED, SIGNED, advised, grounds, grounds_of, many_zones, shares

LONG = bool(os.environ.get("SOILROTA_LONG"))
#: Forty zones make a hundred pages: by default a tenth of them.
SMALL = {"forty zones": lambda: many_zones(6)}
_MARGIN_PT = 40.0
_BODY_PT = (56.0, 785.0)
#: Lines of text that a page has at least, unless it is the last.
_FEWEST_LINES = 8


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
        fewest = 3 if number == len(document) - 1 else _FEWEST_LINES
        assert len({round(line[0]) for line in lines}) > fewest, f"page {number + 1} is all but empty"
        assert min(lines)[1] not in headings, f"page {number + 1} ends in a heading"


def filled(page: pypdfium2.PdfPage) -> float:
    """Return how far down a page anything is printed, its foot apart, as a share of what can be [-]."""
    dark = page.render(scale=1).to_numpy().min(axis=(1, 2)) < 200
    top, bottom = (round(edge) for edge in _BODY_PT)
    return float(np.nonzero(dark[top:bottom])[0].max() / (bottom - top))


@pytest.mark.parametrize("matters", range(0, 9, 2))
def test_the_first_page_is_well_filled(matters: int) -> None:
    """However much there is to say before the map, the map follows on the page; or the words alone fill most of it."""
    of_client = grounds("anvil-creek")
    view = report_view(of_client, of_client.client.farms[1])
    said = MatterView("Something is too low in North slope.", "It is so, and this is how sure that is, in words. " * 4)
    document = pypdfium2.PdfDocument(render_report(replace(view, matters=(said,) * matters), AS_OF, BOOK))
    assert filled(document[0]) > 0.6
    on_first = "Too low:" in document[0].get_textpage().get_text_bounded()
    assert on_first is (matters < 6)


def test_what_ends_a_zone_has_company() -> None:
    """When to spread goes along with the last working: wherever its page begins, it is not the first thing there."""
    of_client = advised_and_signed()
    view = report_view(of_client, of_client.client.farms[0])
    zone = replace(view.zones[1], parts=(), timing=("Spreading closes sampling for a while.",) * 3)
    alone = replace(view, tables=(), protocols=(), samples=(), sources=(), map=replace(view.map, map=""))
    for lines in range(0, 60, 4):
        shown = replace(alone, zones=(replace(zone, facts="Words that take some room. " * (4 * lines)),))
        document = pypdfium2.PdfDocument(render_report(shown, AS_OF, BOOK))
        (page,) = (one for one in document if "When it is sampled" in one.get_textpage().get_text_bounded())
        text, height = page.get_textpage(), page.get_size()[1]
        tops = [text.get_rect(index) for index in range(text.count_rects())]
        first = max((rect for rect in tops if rect[3] <= height - _BODY_PT[0]), key=lambda rect: rect[3])
        assert text.get_text_bounded(*first).strip() != "When it is sampled", f"after {lines} lines"
