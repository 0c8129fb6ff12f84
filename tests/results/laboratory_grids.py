"""Stand-ins for files of laboratories, and forms as the book builds them."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import partial
from typing import Any

from soilrota.book.laboratory_forms import build_forms
from soilrota.book.parts import Located
from soilrota.model.intake import LaboratoryFile
from soilrota.model.laboratory_files import LaboratoryForm
from soilrota.problems import Place, Problem
from soilrota.results.form_finding import find_form_for
from soilrota.results.reading import read_rows


@dataclass(frozen=True)
class Row:
    """One row of a stand-in."""

    number: int
    cells: tuple[str, ...]
    wrong: Problem | None = None
    numeric: frozenset[int] = frozenset()


@dataclass(frozen=True)
class Sheet:
    """A stand-in for a file: its rows as they were split."""

    rows: tuple[Row, ...]
    kind: str = "csv"
    name: str = "inbox/file.csv"
    delimiter: str = ","
    encoding: str = "utf-8"
    sheet: str = ""
    notes: tuple[Problem, ...] = field(default=())

    def place(self, row: Row, column: int) -> Place:
        """Return the place of a cell."""
        return Place(self.name, row.number, column + 1)


def grid(*rows: Sequence[str], kind: str = "csv", numeric: bool = False, **more: Any) -> Sheet:
    """Return a stand-in of rows of cells; with `numeric` every cell that is a plain number counts as stored so."""
    made = []
    for number, cells in enumerate(rows, start=1):
        stored = frozenset(i for i, cell in enumerate(cells) if numeric and _is_plain(cell))
        made.append(Row(number, tuple(cells), None, stored))
    return Sheet(tuple(made), kind=kind, **more)


def _is_plain(text: str) -> bool:
    """Return whether a text is how Python writes a number."""
    try:
        float(text)
    except ValueError:
        return False
    return True


def lines(text: str, delimiter: str = ",") -> Sheet:
    """Return a stand-in of a CSV text."""
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


def taken(sheet: Sheet, *known: LaboratoryForm) -> LaboratoryFile:
    """Return the file as it is read; its form must be found."""
    found = find_form_for(sheet, known)
    assert not isinstance(found, Problem), found
    return read_rows(sheet, *found)


def written(rows: Sequence[Sequence[str]]) -> Sheet:
    """Return rows as they come back from a file in which formulas were guarded by an apostrophe."""
    return grid(*([f"'{cell}" if cell[:1] in tuple("'=+-@") else cell for cell in row] for row in rows))


def reasons(file: LaboratoryFile) -> list[list[str]]:
    """Return the codes of the reasons of each row set aside."""
    return [[reason.code for reason in row.reasons] for row in file.set_aside]
