"""What a row says besides its values."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.quantities import Refusal
from soilrota.results.row_facts import label_spots, read_day, read_depth, read_edge, read_issue, spots_of
from tests.results.laboratory_grids import column, forms, grid, reasons, taken

COLUMNS = [column("pH", "ph.water", "pH")]
ORDERS = {
    "year-month-day": "{y:04}/{m:02}/{d:02}",
    "day-month-year": "{d}/{m}/{y:04}",
    "month-day-year": "{m}.{d}.{y:04}",
}


@given(st.dates(date(1990, 1, 1), date(2100, 12, 31)), st.sampled_from(sorted(ORDERS)))
def test_days_in_every_order(day: date, order: str) -> None:
    """A day is read in its order, as ISO, and with the name of its month, whatever the order."""
    text = ORDERS[order].format(y=day.year, m=day.month, d=day.day)
    months = ["Jan", "February", "Mar", "April", "May", "Jun", "July", "Aug", "Sept", "October", "Nov", "December"]
    named = f"{day.day}-{months[day.month - 1]}-{day.year}"
    assert [read_day(one, order) for one in (text, day.isoformat(), named)] == [day] * 3


@pytest.mark.parametrize("text", ["30/02/2026", "31 Feb 2026", "1/2/26", "46073", "soon", "2026-13-01"])
def test_no_such_day(text: str) -> None:
    """A day that the calendar does not have, two digits of a year, a sheet's bare number: refused."""
    assert isinstance(read_day(text, "day-month-year"), Refusal)


@pytest.mark.parametrize(
    ("text", "depth"),
    [
        ("0-10", (0, 10)), ("0–10 cm", (0, 10)), ("10 to 30", (10, 30)), ("0-7,5cm", (0, 7.5)),
        ("0 cm - 10 cm", (0, 10)), ("0-100mm", (0, 10)), ("0-0.6 m", (0, 60)), ("0-6 in", (0, 15.24)),
    ],
)  # fmt: skip
def test_depths(text: str, depth: tuple[float, float]) -> None:
    """Layers as laboratories write them."""
    assert read_depth(text) == depth


@pytest.mark.parametrize("text", ["10", "10-0", "0-0", "0-400", "2026-10-01", "10-Jan", "0-10-20", "a-b"])
def test_no_such_depth(text: str) -> None:
    """What is no layer is refused, dates above all."""
    assert isinstance(read_depth(text), Refusal)


def test_edges_and_issues() -> None:
    """One edge, one number of an issue."""
    assert [read_edge(text) for text in ("0", "7.5", "10 cm", "150mm")] == [0, 7.5, 10, 15]
    assert all(isinstance(read_edge(text), Refusal) for text in ("-1", "301", "x"))
    assert [read_issue(text) for text in ("1", "v2", "Issue 3", "4.0")] == [1, 2, 3, 4]
    assert all(isinstance(read_issue(text), Refusal) for text in ("0", "1.5", "final"))


def test_edges_of_a_row() -> None:
    """Two edges make a layer; one alone, or two that are swapped, set the row aside; none is none."""
    form = {"name": "one", "sample": "Bag", "top": "From", "bottom": "To", "columns": COLUMNS}
    rows = (
        ["B-1", "0", "10", "5"],
        ["B-2", "", "", "5"],
        ["B-3", "10", "0", "5"],
        ["B-4", "0", "", "5"],
        ["B-5", "x", "5", "5"],
    )
    file = taken(grid(["Bag", "From", "To", "pH"], *rows), *forms(form))
    assert [row.depth for row in file.rows] == [(0, 10), None]
    assert reasons(file) == [["bad-depth"], ["bad-depth"], ["bad-top"]]


def test_a_bad_fact_above_the_table_holds_for_every_row() -> None:
    """No row is taken in under a day that cannot be read; the reason stands where the day does."""
    form = {"name": "one", "sample": "Bag", "reported": {"label": "Out"}, "columns": COLUMNS}
    file = taken(grid(["", "Out", "", "31/02/2026"], ["Bag", "pH"], ["B-1", "5"], ["B-2", "5"]), *forms(form))
    assert reasons(file) == [["bad-reported"], ["bad-reported"]]
    assert {reason.place.line for row in file.set_aside for reason in row.reasons} == {1}


def test_the_places_of_a_form() -> None:
    """Every place that is named, those above the table apart."""
    (form,) = forms({"name": "one", "sample": "Bag", "report": {"label": "No."}, "depth": "Depth", "columns": COLUMNS})
    assert [key for key, _ in spots_of(form)] == ["sample", "report", "depth"]
    assert [key for key, _ in label_spots(form)] == ["report"]
