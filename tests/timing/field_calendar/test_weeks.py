"""The calendar week by week."""

from __future__ import annotations

from soilrota.timing.field_calendar import plan_calendar, weeks
from tests.timing.field_calendar.making import a_person, a_visit, on, some_inputs


def test_rows_cells_and_empty_weeks() -> None:
    """A row a person in the order given, seven cells a week, the week without work between two others included."""
    crew = (a_person("mara"), a_person("ada", weekdays=(6,)))
    inputs = some_inputs(a_visit("a", 2, 2), a_visit("b", 14, 14), a_visit("c", 5, 5, people=("ada",)), crew=crew)
    calendar = plan_calendar(inputs)
    found = weeks(calendar, inputs.crew)
    assert [week.monday for week in found] == [on(0), on(7), on(14)]
    assert [person for person, _ in found[0].people] == ["mara", "ada"]
    (_, mara), (_, ada) = found[0].people
    assert [cell is not None for cell in mara] == [False, False, True, False, False, False, False]
    assert [cell.stops[0].visit for cell in ada if cell] == ["c"]
    assert all(cell is None for _, cells in found[1].people for cell in cells)
    cells = [cell for week in found for _, row in week.people for cell in row if cell]
    assert sorted(cells, key=lambda cell: cell.day) == list(calendar.days)


def test_an_empty_calendar_has_no_weeks() -> None:
    """Nothing planned, nothing to show."""
    assert weeks(plan_calendar(some_inputs()), ()) == ()
