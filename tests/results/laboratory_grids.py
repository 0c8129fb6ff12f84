"""Tables of laboratories without their files, and forms as the book builds them."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from functools import partial
from typing import Any

from soilrota.book.laboratory_forms import build_forms
from soilrota.book.parts import Located
from soilrota.files import Grid, GridRow, grid_of, write_grid_csv
from soilrota.model.intake import LaboratoryFile
from soilrota.model.laboratory_files import FileKind, GridForm, LaboratoryForm
from soilrota.problems import Place, Problem
from soilrota.results.form_finding import find_form_for
from soilrota.results.reading import read_rows


def grid(*rows: Sequence[str], kind: str = "csv", numeric: bool = False, **more: Any) -> Grid:
    """Return a table of rows of cells; with `numeric` every cell that is a plain number counts as stored so."""
    made = []
    for number, cells in enumerate(rows, start=1):
        stored = frozenset(i for i, cell in enumerate(cells) if numeric and _is_plain(cell))
        made.append(GridRow(number, tuple(cells), None, stored, _source(cells)))
    return Grid("inbox/file.csv", FileKind(kind), tuple(made), **{"delimiter": ",", **more})


def _source(cells: Sequence[str]) -> str:
    """Return a row as it stands in a CSV file."""
    text = io.StringIO()
    csv.writer(text, lineterminator="").writerow(cells)
    return text.getvalue()


def _is_plain(text: str) -> bool:
    """Return whether a text is how Python writes a number."""
    try:
        float(text)
    except ValueError:
        return False
    return True


def lines(text: str, delimiter: str = ",") -> Grid:
    """Return a table of a CSV text."""
    return grid(*csv.reader(io.StringIO(text), delimiter=delimiter), delimiter=delimiter)


def forms(*data: dict[str, Any], laboratory: str = "north-bench") -> tuple[LaboratoryForm, ...]:
    """Return forms as the book builds them of a laboratory's file."""
    whole = {"forms": list(data)}
    located = Located(whole, partial(_place, laboratory), whole)
    return tuple(form.value for form in build_forms(laboratory, located))


def _place(laboratory: str, *_: str | int) -> Place:
    """Return the place of anything in the laboratory's file."""
    return Place(f"laboratories/{laboratory}.yaml", 7, 5)


def column(heading: str, analysis: str, unit: str = "", **more: Any) -> dict[str, Any]:
    """Return a column as a laboratory's file declares it."""
    return {"heading": heading, "analysis": analysis, **({"unit": unit} if unit else {}), **more}


def taken(sheet: Grid, *known: LaboratoryForm) -> LaboratoryFile:
    """Return the file as it is read; its form must be found."""
    found = find_form_for(sheet, known)
    assert not isinstance(found, Problem), found
    return read_rows(sheet, *found)


def written(rows: Sequence[Sequence[str]]) -> Grid:
    """Return rows as they come back from the file that is written of them."""
    made, problems = grid_of(write_grid_csv(rows), "inbox/mended.csv", GridForm(delimiter=","))
    assert made is not None, problems
    return made


def reasons(file: LaboratoryFile) -> list[list[str]]:
    """Return the codes of the reasons of each row set aside."""
    return [[reason.code for reason in row.reasons] for row in file.set_aside]
