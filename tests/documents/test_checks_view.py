"""The document of laboratory checks: the worst first, every check once, no chart cut by a page."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date
from functools import cache

import pypdf

from soilrota.book import load_shared
from soilrota.documents import ChecksView, checks_view, render_checks
from soilrota.documents.checks_view import MOST_POINTS
from soilrota.guidelines.check_samples import check_sources
from soilrota.model.check_charts import CheckChart
from soilrota.model.practice import Practice
from tests.documents.checks import LIMITS, a_chart
from tests.documents.made import BOOK


@cache
def practice() -> Practice:
    """Return the practice of the example book."""
    shared, _ = load_shared(BOOK)
    assert shared is not None
    return shared.practice


def view_of(*charts: CheckChart) -> ChecksView:
    """Return the view of charts."""
    return checks_view(charts, practice(), LIMITS, check_sources())


def test_the_worst_stands_first() -> None:
    """Lines and laboratories follow how grave they are; names come from the book, an unknown one is its id."""
    view = view_of(a_chart(0.1), a_chart(2.5, laboratory="far-bench"), a_chart(4.0, laboratory="tarn-bench"))
    names = ["Tarn Bench Laboratory", "far-bench", "North Bench Laboratory"]
    assert [line.laboratory for line in view.lines] == [one.name for one in view.laboratories] == names
    assert [line.state for line in view.lines] == ["Off", "Watch", "In line"]
    assert view.lines[0].last == "5 Jan 2026: 38.0 mg/kg, 4.0 sd above"
    assert [block.tone for one in view.laboratories for block in one.blocks] == ["off", "watch", "in-line"]


def test_what_has_no_chart_is_named_in_words() -> None:
    """Laboratory and material stand by their names where the book has them."""
    left = (("north-bench", "shed-loam", "potassium.colwell"), ("far-bench", "old-clay", "potassium.colwell"))
    said = checks_view([a_chart(0.1)], practice(), LIMITS, check_sources(), left).grounds[-2:]
    assert said[0] == (
        "No chart: Loam from behind the shed has no assigned value of Colwell K, which North Bench Laboratory reported."
    )
    assert said[1] == "No chart: old-clay has no assigned value of Colwell K, which far-bench reported."


def test_the_document_speaks_the_language_of_the_practice() -> None:
    """Its tag, days and decimals."""
    spanish = replace(practice(), language="es")
    view = checks_view((a_chart(0.25, 2.55),), spanish, LIMITS, check_sources())
    assert (view.language, view_of(a_chart(0.1)).language) == ("es", practice().language)
    assert view.lines[0].last.startswith("2 feb 2026: 35,1 mg/kg, +2,")
    ((block,),) = (one.blocks for one in view.laboratories)
    assert "2 de febrero de 2026" in block.sentence
    assert "36,0 mg/kg: " in block.picture


def test_every_check_stands_once_and_old_ones_are_counted() -> None:
    """Rows read down the first column and then the second; what does not fit is said."""
    ((block,),) = (one.blocks for one in view_of(a_chart(*[0.5, -0.5, 0.2] * 15)).laboratories)
    bags = [row.bag for column in block.columns for row in column]
    assert bags == [f"Z{9000 + number}-A" for number in range(45 - MOST_POINTS, 45)]
    assert block.left_out == "5 earlier checks stand in records/check_samples."
    ((short,),) = (one.blocks for one in view_of(a_chart(0.5)).laboratories)
    assert ([len(column) for column in short.columns], short.left_out) == ([1], "")


def test_the_pdf_reads_back_and_cuts_no_chart() -> None:
    """Title, tags and words; the same bytes again; a heading and the last row of its table on one page."""
    charts = [a_chart(*[0.5, -0.5, 0.2, 0.1] * 3, laboratory=f"bench-{number}") for number in range(7)]
    view = view_of(a_chart(*[0.1, -0.1] * 5, 2.2, 2.6), *charts)
    content = render_checks(view, date(2027, 2, 15), BOOK)
    assert content == render_checks(view, date(2027, 2, 15), BOOK)
    found = pypdf.PdfReader(io.BytesIO(content))
    assert found.metadata is not None
    assert found.metadata.title == "Laboratory checks"
    assert found.trailer["/Root"]["/MarkInfo"]["/Marked"]
    pages = [" ".join(page.extract_text().split()) for page in found.pages]
    assert "North Bench Laboratory is off for Colwell P." in pages[0]
    for number in range(7):
        (page,) = (page for page in pages[1:] if f"bench-{number} " in page)
        assert page.count("Z9000-A") == page.count("Z9011-A") == page.count("Colwell P: ")
