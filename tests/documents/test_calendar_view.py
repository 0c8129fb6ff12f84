"""The field calendar as people read it."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date
from functools import cache
from xml.etree import ElementTree as ET

import pypdf
import pytest

from soilrota.book import load_shared
from soilrota.documents import calendar_view, render_calendar
from soilrota.model.field_calendar import CalendarInputs, PlannedCalendar, VisitLabel
from soilrota.model.practice import Practice
from soilrota.timing.field_calendar import plan_calendar, weeks
from tests.documents.made import BOOK
from tests.timing.field_calendar.making import a_person, a_season, a_visit, some_inputs


@cache
def practice() -> Practice:
    """Return the practice of the example book."""
    shared, _ = load_shared(BOOK)
    assert shared is not None
    return shared.practice


def planned(inputs: CalendarInputs) -> PlannedCalendar:
    """Return a calendar with labels."""
    calendar = plan_calendar(inputs)
    labels = {visit.id: VisitLabel(f"Client {visit.id}", f"Farm {visit.id}", ("Ridge",)) for visit in inputs.visits}
    return PlannedCalendar(calendar, inputs, weeks(calendar, inputs.crew), labels, date(2027, 1, 18))


def test_everything_planned_is_said_once() -> None:
    """Every stop has a row in its week, every visit without a day a reason, and the counts add up."""
    plan = planned(a_season(40, 2, seed=3, longest=300))
    view = calendar_view(plan, practice())
    stops = [stop.farm for week in view.weeks for stop in week.stops]
    assert len(stops) == sum(len(one.stops) for one in plan.calendar.days)
    assert len(view.left) == len(plan.calendar.unplaced)
    assert all(row.reason.endswith(".") for row in view.left)
    assert f"of {len(plan.inputs.visits)}" in view.summary[0]


def test_late_and_split_visits_say_so() -> None:
    """Lateness has its days and its reason; a part says which."""
    late = calendar_view(planned(some_inputs(a_visit("a", 7, 11, preferred=7, last_useful=4))), practice())
    (stop,) = late.weeks[0].stops
    assert stop.note == "3 days late for the decision: it does not open in time."
    assert stop.day == "Mon 25 January"
    split = calendar_view(planned(some_inputs(a_visit("a", 0, 4, minutes=700))), practice())
    assert [one.note for one in split.weeks[0].stops] == ["Part 1 of 2.", "Part 2 of 2."]


@pytest.mark.parametrize("inputs", [some_inputs(), some_inputs(a_visit(), crew=())])
def test_nothing_to_plan_and_nobody_to_do_it(inputs: CalendarInputs) -> None:
    """Both are said in a sentence, and make a document."""
    view = calendar_view(planned(inputs), practice())
    assert view.weeks == ()
    said = " ".join(view.summary)
    assert "No visit is due" in said or "has a base" in said
    assert render_calendar(view, date(2027, 1, 18), BOOK).startswith(b"%PDF")


def test_the_pdf_reads_back() -> None:
    """Title, tags, farms and people; the same bytes again; every picture has its words."""
    crew = (a_person(), a_person("ned"))
    plan = planned(some_inputs(a_visit("a"), a_visit("b", 3, 6), a_visit("c", 0, 1, minutes=470), crew=crew))
    view = calendar_view(plan, practice())
    content = render_calendar(view, date(2027, 1, 18), BOOK)
    assert content == render_calendar(view, date(2027, 1, 18), BOOK)
    found = pypdf.PdfReader(io.BytesIO(content))
    assert found.metadata is not None
    assert found.metadata.title == "Field calendar"
    assert found.trailer["/Root"]["/MarkInfo"]["/Marked"]
    text = " ".join(" ".join(page.extract_text() for page in found.pages).split())
    assert all(name in text for name in ("Farm a, Client a", "Farm b", "Mara", "18 January 2027"))
    for week in view.weeks:
        title = ET.fromstring(week.picture).findtext("{http://www.w3.org/2000/svg}title")
        assert title is not None
        assert title.startswith("Week plan. ")


def test_the_calendar_is_in_the_practices_language() -> None:
    """Days and figures are written as it writes them."""
    plan = planned(some_inputs(a_visit("a", 7, 11, preferred=7)))
    view = calendar_view(plan, replace(practice(), language="es"))
    assert view.language == "es"
    assert view.weeks[0].stops[0].day == "lun 25 de enero"
    assert "lun 25" in view.weeks[0].picture
    assert any("1,3" in ground for ground in view.grounds)
