"""Results of the example clients, written as each example laboratory writes, come back equal."""

from __future__ import annotations

import csv
import io
from collections import defaultdict
from datetime import date
from pathlib import Path

import openpyxl
import pytest

from soilrota.book import load_shared
from soilrota.files import Grid, grid_of
from soilrota.model.laboratory_files import AnalysisColumn, FileKind, LaboratoryForm, RowShape
from soilrota.model.practice import Laboratory
from soilrota.quantities import method
from tests.results.laboratory_grids import taken

BOOK = Path(__file__).resolve().parents[2] / "example_clients"
DAYS = {"year-month-day": "%Y-%m-%d", "day-month-year": "%d/%m/%Y", "month-day-year": "%m/%d/%Y"}
FILES = sorted((BOOK / "records" / "results").rglob("*.csv"))


def laboratories() -> dict[str, Laboratory]:
    """Return the example laboratories."""
    shared, problems = load_shared(BOOK)
    assert shared is not None, problems
    return shared.practice.laboratories


LABORATORIES = laboratories()
FORMS = tuple(form for laboratory in LABORATORIES.values() for form in laboratory.forms)
Record = dict[str, str]


def fact(form: LaboratoryForm, key: str, record: Record) -> str:
    """Return a fact as a form writes it."""
    if key in {"sampled", "received", "reported"}:
        day = date.fromisoformat(record["reported" if key == "received" else key])
        return day.strftime(DAYS[form.day_form])
    depth = f"{record['top_cm']}-{record['bottom_cm']}"
    named = {"sample": "bag", "report": "report", "top": "top_cm", "bottom": "bottom_cm"}
    return depth if key == "depth" else "1" if key == "issue" else record[named[key]]


def number(form: LaboratoryForm, record: Record) -> str:
    """Return a value as a form writes it."""
    decimal = form.numbers.decimal if form.numbers else "."
    return record["qualifier"] + record["value"].replace(".", decimal)


def written(form: LaboratoryForm, records: list[Record]) -> list[list[str]]:
    """Return the rows of a report in a form."""
    keys = ("sample", "report", "issue", "sampled", "received", "reported", "depth", "top", "bottom")
    spots = {key: spot for key in keys if (spot := getattr(form, key)) is not None}
    above = [[spot.label, "", fact(form, key, records[0])] for key, spot in spots.items() if spot.label]
    under = {key: spot.heading for key, spot in spots.items() if spot.heading}
    means: dict[str, AnalysisColumn] = {column.code: column for column in reversed(form.columns)}
    code = "{analyte}.{method}"
    if form.shape is RowShape.VALUE:
        rows = [
            [
                *(fact(form, key, record) for key in under),
                *_names(means[code.format(**record)]),
                number(form, record),
                record["unit"],
            ]
            for record in records
        ]
        return [*above, [*under.values(), "Test", "Extract", "Found", "Expressed as"], *rows]
    bags: dict[str, list[Record]] = defaultdict(list)
    for record in records:
        bags[record["bag"]].append(record)
    used = [means[one] for one in dict.fromkeys(code.format(**record) for record in records)]
    units = [[""] * len(under) + [_unit(column) if column.unit_row else "" for column in used]]
    rows = []
    for some in bags.values():
        cells = {code.format(**record): number(form, record) for record in some}
        rows.append([*(fact(form, key, some[0]) for key in under), *(cells.get(column.code, "") for column in used)])
    has_units = any(column.unit_row for column in used)
    return [*above, [*under.values(), *(column.heading for column in used)], *(units if has_units else []), *rows]


def _names(column: AnalysisColumn) -> tuple[str, str]:
    """Return name and method of an analysis."""
    name, _, how = column.heading.partition(" | ")
    return name, how


def _unit(column: AnalysisColumn) -> str:
    """Return the unit of the glossary."""
    known = method(column.analyte, column.method)
    assert known is not None
    return known.unit


def as_file(form: LaboratoryForm, rows: list[list[str]]) -> Grid:
    """Return rows as they are read of a real file of the form's kind."""
    if form.kind is FileKind.XLSX:
        book = openpyxl.Workbook()
        sheet = book.active
        assert sheet is not None
        sheet.title = form.grid.sheet
        sheet.append(["Soil analysis"])
        sheet.merge_cells("A1:F1")
        for row in rows:
            sheet.append([float(cell) if cell.replace(".", "", 1).isdigit() else cell or None for cell in row])
        stream = io.BytesIO()
        book.save(stream)
        made, problems = grid_of(stream.getvalue(), "report.xlsx")
    else:
        text = io.StringIO(newline="")
        csv.writer(text, delimiter=form.grid.delimiter or ",").writerows(rows)
        made, problems = grid_of(text.getvalue().encode(form.grid.encoding or "utf-8"), "report.csv")
    assert made is not None, problems
    return made


def test_every_form_is_used() -> None:
    """Four forms, each of a laboratory that has results."""
    assert len(FORMS) == 4
    assert {file.name[:2] for file in FILES} == {"nb", "pb", "tb"}


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_report_comes_back_equal(file: Path) -> None:
    """Bag, report, days, depth and every value, in each form of its laboratory; found among all forms."""
    with file.open(encoding="utf-8", newline="") as stream:
        records = list(csv.DictReader(stream))
    for form in LABORATORIES[records[0]["laboratory"]].forms:
        read = taken(as_file(form, written(form, records)), *FORMS)
        assert (read.laboratory, read.form, read.set_aside, read.notes) == (form.laboratory, form.name, (), ())
        found = {
            (
                row.sample,
                row.report,
                str(row.sampled),
                str(row.reported),
                row.depth,
                f"{value.analyte}.{value.method}",
            ): (
                value.qualifier,
                value.value,
                value.unit,
            )
            for row in read.rows
            for value in row.values
        }
        assert found == {
            (
                one["bag"],
                one["report"],
                one["sampled"],
                one["reported"],
                (float(one["top_cm"]), float(one["bottom_cm"])),
                f"{one['analyte']}.{one['method']}",
            ): (one["qualifier"], float(one["value"]), one["unit"])
            for one in records
        }
