"""The picture of a week."""

from __future__ import annotations

from datetime import date
from xml.etree import ElementTree as ET

from soilrota.documents.calendar_weeks import WIDTH, week_key, week_picture
from soilrota.model.field_calendar import CalendarWeek, PersonDay, Stop, VisitLabel

SVG = "{http://www.w3.org/2000/svg}"
LABELS = {"a": VisitLabel("A & Sons", "Home <block>", ("Ridge",)), "b": VisitLabel("B", "Hill", ("Top",))}
MONDAY = date(2027, 3, 1)


def _week(day: int) -> CalendarWeek:
    """Return a week in which Mara visits two farms on one day and Ned none."""
    stops = (Stop("a", 120, 1, 1), Stop("b", 240, 1, 1))
    cell = PersonDay("mara", MONDAY.replace(day=day), stops, 360, 60, 50.0)
    cells = tuple(cell if number == day - 1 else None for number in range(7))
    return CalendarWeek(MONDAY, (("mara", cells), ("ned", (None,) * 7)))


def _picture(day: int) -> ET.Element:
    """Return the picture of that week."""
    return ET.fromstring(week_picture(_week(day), {"mara": "Mara", "ned": "Ned"}, 480, LABELS, "en-GB"))


def test_bars_are_as_long_as_the_work() -> None:
    """240 minutes are twice as long as 120, nothing leaves the picture, and who does nothing has no row."""
    found = _picture(2)
    bars = [float(one.get("width", "0")) for one in found.findall(f"{SVG}rect") if one.get("fill") == "#4f7a5b"]
    assert bars[1] == 2 * bars[0]
    assert all(float(one.get("x", "0")) + float(one.get("width", "0")) <= WIDTH for one in found.findall(f"{SVG}rect"))
    words = [one.text for one in found.findall(f"{SVG}text")]
    assert "Tue 2" in words
    assert "1 Home <block>" in words
    assert "Ned" not in words
    assert found.findtext(f"{SVG}title") == "Week plan. Mara on 2 March 2027: Home <block> and Hill."


def test_a_weekend_is_shown_where_it_is_worked() -> None:
    """Five columns, or seven."""
    weekday, weekend = ([one.text for one in _picture(day).findall(f"{SVG}text")] for day in (2, 6))
    assert "Sat 6" not in weekday
    assert "Sat 6" in weekend


def test_the_key_says_what_it_shows() -> None:
    """The key has a text alternative."""
    assert ET.fromstring(week_key()).findtext(f"{SVG}title")
