"""What a row says besides its values: bag, report, issue, days, depth; from its cells or from above the table."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import TypeVar

from soilrota.files import day_of, heading_key
from soilrota.model.laboratory_files import LaboratoryForm, Spot
from soilrota.problems import Place, Problem, error, warning
from soilrota.quantities import Refusal
from soilrota.results.laboratory_table import Table, TableRow
from soilrota.results.row_values import is_not_measured

_SPOTS = (
    "sample", "report", "issue", "sampled", "received", "reported", "depth", "top", "bottom",
    "analysis", "value", "unit", "method",
)  # fmt: skip
_ABOVE = ("report", "issue", "sampled", "received", "reported", "depth", "top", "bottom")
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_NAMED_DAY = re.compile(rf"([0-9]{{1,2}})[-./ ]*({'|'.join(_MONTHS)})[a-z]*[-./, ]*([0-9]{{4}})", re.IGNORECASE)
_DAYS = {"year-month-day": "2027-01-21", "day-month-year": "21/01/2027", "month-day-year": "01/21/2027"}
_ISSUE = re.compile(r"(?:issue|version|revision|rev|v)?\.? ?([1-9][0-9]{0,3})(?:[.,]0)?", re.IGNORECASE)
_NUMBER = r"([0-9]{1,4}(?:[.,][0-9]{1,3})?)"
_UNIT = r"(cm|mm|m|in|inch|inches|\")?"
_EDGE = re.compile(rf"{_NUMBER} ?{_UNIT}", re.IGNORECASE)
_DEPTH = re.compile(rf"{_NUMBER} ?{_UNIT} ?(?:-|–|—|\u2212|to) ?{_NUMBER} ?{_UNIT}", re.IGNORECASE)
#: Centimetres in one of each unit; an inch is 2.54 cm by definition (international yard and pound agreement, 1959).
_CM = {"": 1.0, "cm": 1.0, "mm": 0.1, "m": 100.0, "in": 2.54, "inch": 2.54, "inches": 2.54, '"': 2.54}
_DEEPEST_CM = 300.0

Fact = TypeVar("Fact")


@dataclass(frozen=True, slots=True)
class Facts:
    """What a row says besides its values; the attributes are those of `ReportedRow`."""

    sample: str
    report: str
    issue: int | None
    sampled: date | None
    received: date | None
    reported: date | None
    depth: tuple[float, float] | None


def spots_of(form: LaboratoryForm) -> tuple[tuple[str, Spot], ...]:
    """Return the places that a form names, by what stands there."""
    named = ((key, getattr(form, key)) for key in _SPOTS)
    return tuple((key, spot) for key, spot in named if spot is not None)


def label_spots(form: LaboratoryForm) -> tuple[tuple[str, Spot], ...]:
    """Return the places above the table that a form names, by what stands there."""
    return tuple((key, spot) for key, spot in spots_of(form) if spot.label)


@dataclass(frozen=True, slots=True)
class FactReader:
    """Reads the facts of the rows of one table.

    Attributes:
        table: the table.
        form: how it is written.
        columns: column of a fact, from 0.
        above: text and place of a fact that stands above the table.
        wrong: what is wrong above the table; it holds for every row.
        notes: facts that the form declares and the file does not have.
    """

    table: Table
    form: LaboratoryForm
    columns: Mapping[str, int]
    above: Mapping[str, tuple[str, Place]]
    wrong: tuple[Problem, ...]
    notes: tuple[Problem, ...]

    def read(self, row: TableRow) -> tuple[Facts, tuple[Problem, ...]]:
        """Return the facts of a row, and everything that is wrong with them."""
        problems: list[Problem] = [*self.wrong]

        def fact(key: str, read: Callable[[str], Fact | Refusal | None]) -> Fact | None:
            text, place = self._said(row, key)
            found = None if is_not_measured(text) else read(text)
            if isinstance(found, Refusal):
                problems.append(error(f"bad-{key}", place, f"{key}: {found.found}", found.expected, found.mend))
                return None
            return found

        def day(text: str) -> date | Refusal:
            return read_day(text, self.form.day_form)

        facts = Facts(
            sample=fact("sample", str) or "",
            report=fact("report", str) or "",
            issue=fact("issue", read_issue),
            sampled=fact("sampled", day),
            received=fact("received", day),
            reported=fact("reported", day),
            depth=fact("depth", read_depth),
        )
        top, bottom = fact("top", read_edge), fact("bottom", read_edge)
        if not facts.sample:
            place = self._said(row, "sample")[1]
            mend = "write the id that stands on the bag, or dismiss the row"
            problems.append(error("no-sample", place, f"nothing under '{self.form.sample.heading}'", "a bag id", mend))
        return self._with_edges(facts, row, top, bottom, problems), tuple(problems)

    def _said(self, row: TableRow, key: str) -> tuple[str, Place]:
        """Return what is said of a fact for a row, and where."""
        if key in self.above:
            return self.above[key]
        column = self.columns.get(key)
        return row.cell(column), self.table.place(row, column or 0)

    def _with_edges(
        self, facts: Facts, row: TableRow, top: float | None, bottom: float | None, problems: list[Problem]
    ) -> Facts:
        """Return the facts with the depth that two edges give, where no depth stands in one cell."""
        if facts.depth is not None or any(problem.code in {"bad-top", "bad-bottom"} for problem in problems):
            return facts
        if top is None and bottom is None:
            return facts
        if top is None or bottom is None or top >= bottom:
            found = f"an upper edge of {_shown(top)} and a lower edge of {_shown(bottom)}"
            mend = "write both edges of the layer in cm, or empty both"
            problems.append(error("bad-depth", self._said(row, "top")[1], found, "top above bottom", mend))
            return facts
        return Facts(
            facts.sample, facts.report, facts.issue, facts.sampled, facts.received, facts.reported, (top, bottom)
        )


def fact_reader(table: Table, form: LaboratoryForm, header: int) -> FactReader:
    """Return what reads the facts of the rows below a header.

    Args:
        table: the table.
        form: how it is written.
        header: index of the row of its headings.
    """
    row = table.rows[header]
    keys = [heading_key(cell) for cell in row.cells]
    columns: dict[str, int] = {}
    above: dict[str, tuple[str, Place]] = {}
    wrong: list[Problem] = []
    notes: list[Problem] = []
    for key, spot in spots_of(form):
        said = list(labelled(table, header, spot)) if spot.label else []
        if len({text for text, _ in said}) > 1:
            found = f"label '{spot.label}' with {' and '.join(repr(text[:40]) for text, _ in said[:3])}"
            mend = "take all but one out of the rows above the table"
            wrong.append(error("label-twice", said[1][1], found, "one meaning", mend))
        elif said:
            above[key] = said[0]
        elif spot.heading and heading_key(spot.heading) in keys:
            columns[key] = keys.index(heading_key(spot.heading))
        else:
            name = spot.heading or spot.label
            mend = f"check whether the laboratory names it otherwise now, and correct the form at {form.place}"
            what = f"no '{name}', where the form has '{key}'"
            notes.append(warning("missing-heading", table.place(row), what, f"'{name}'", mend))
    return FactReader(table, form, columns, above, tuple(wrong), tuple(notes))


def labelled(table: Table, header: int, spot: Spot) -> Iterator[tuple[str, Place]]:
    """Yield what stands beside each cell above the table that is the label."""
    wanted = heading_key(spot.label.rstrip(": "))
    for row in table.rows[:header]:
        for column, cell in enumerate(row.cells):
            before, _, behind = cell.partition(":")
            if heading_key(before) != wanted:
                continue
            if behind.strip():
                yield behind.strip(), table.place(row, column)
                continue
            filled = (i for i in range(column + 1, len(row.cells)) if row.cell(i))
            beside = next(filled, None)
            if beside is not None:
                yield row.cell(beside), table.place(row, beside)


def read_day(text: str, day_form: str) -> date | Refusal:
    """Return the day of a cell; the form's order, an ISO day and a day with the English name of its month are read.

    >>> read_day("3 Feb 2027", "year-month-day")
    datetime.date(2027, 2, 3)
    """
    plain = " ".join(text.split())
    named = _NAMED_DAY.fullmatch(plain)
    try:
        day = date(int(named[3]), _MONTHS.index(named[2].lower()) + 1, int(named[1])) if named else None
    except ValueError:
        day = None
    day = day or day_of(plain, day_form)
    if day is not None:
        return day
    mend = f"write it as {_DAYS[day_form]}, or correct day_form in the laboratory's file"
    return Refusal(f"'{plain[:60]}', which is no such day", f"a day as {day_form}, with the year in four digits", mend)


def read_issue(text: str) -> int | Refusal:
    """Return the number of an issue.

    >>> read_issue("Rev. 2"), read_issue("3.0")
    (2, 3)
    """
    match = _ISSUE.fullmatch(" ".join(text.split()))
    if match is None:
        return Refusal(f"'{text[:60]}'", "a whole number from 1", "write the number of the issue, or empty the cell")
    return int(match[1])


def read_edge(text: str) -> float | Refusal:
    """Return a depth [cm].

    >>> read_edge("10"), read_edge("150 mm")
    (10.0, 15.0)
    """
    match = _EDGE.fullmatch(" ".join(text.split()))
    edge = None if match is None else _cm(match[1], match[2] or "")
    if edge is None or edge > _DEEPEST_CM:
        return Refusal(f"'{text[:60]}'", "a depth of 0 to 300 cm", "write the depth in cm, for instance 10")
    return edge


def read_depth(text: str) -> tuple[float, float] | Refusal:
    """Return top and bottom of a layer [cm].

    >>> read_depth("0-10"), read_depth("10 to 30 cm"), read_depth("0–150 mm")
    ((0.0, 10.0), (10.0, 30.0), (0.0, 15.0))
    """
    match = _DEPTH.fullmatch(" ".join(text.split()))
    if match is not None:
        unit = match[4] or match[2] or ""
        top, bottom = _cm(match[1], match[2] or unit), _cm(match[3], unit)
        if top < bottom <= _DEEPEST_CM:
            return top, bottom
    return Refusal(f"'{text[:60]}'", "top and bottom within 0 to 300 cm", "write the layer in cm, for instance 0-10")


def _cm(number: str, unit: str) -> float:
    """Return a depth [cm]."""
    return round(float(number.replace(",", ".")) * _CM[unit.lower()], 6)


def _shown(edge: float | None) -> str:
    """Return an edge as a problem shows it."""
    return "nothing" if edge is None else f"{edge:g} cm"
