"""From the bytes of a file to its rows: the cells, the laboratory's form, the rows read by it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from soilrota.files import Grid, read_grid
from soilrota.model.intake import LaboratoryFile, ReportedRow
from soilrota.model.laboratory_files import FileKind, GridForm, LaboratoryForm
from soilrota.model.practice import Laboratory
from soilrota.problems import Place, Problem, error, in_order
from soilrota.results import as_table, find_form_for, read_rows


def forms_of(
    laboratories: dict[str, Laboratory], wanted: str, name: str
) -> tuple[tuple[LaboratoryForm, ...], tuple[Problem, ...]]:
    """Return the forms in which a file may be written: those of the laboratory that its folder names, or all.

    Args:
        laboratories: by id.
        wanted: id of the laboratory that the folder names; empty for all.
        name: the file's name, for problems.
    """
    chosen = [laboratories[wanted]] if wanted in laboratories else [] if wanted else list(laboratories.values())
    forms = tuple(form for laboratory in chosen for form in laboratory.forms)
    if forms:
        return forms, ()
    place = Place(name)
    if wanted and wanted not in laboratories:
        known = ", ".join(sorted(laboratories)) or "none yet"
        mend = "name the folder after a laboratory of the book, or put the file into inbox/ itself"
        found = f"the folder {wanted} names no laboratory"
        return (), (error("unknown-laboratory", place, found, f"one of {known}", mend),)
    mend = "run soilrota learn-laboratory on the file, finish what it writes and keep it under laboratories/"
    whose = f"of {wanted} " if wanted else ""
    return (), (error("no-forms", place, f"no form {whose}is known to read it by", "", mend),)


def read_laboratory_file(
    path: Path, name: str, forms: Sequence[LaboratoryForm]
) -> tuple[tuple[Grid, LaboratoryFile, LaboratoryForm] | None, tuple[Problem, ...]]:
    """Return the cells, the rows and the form of a laboratory's file.

    The cells are told apart as they can be found out at first; where the form then declares it otherwise they are read
    once more, but for a table of ours, which whoever mended it may have saved in another way. Where they cannot be told
    apart, each form that declares how is tried.

    Args:
        path: where it lies.
        name: its name, for places.
        forms: the forms in which it may be written.

    Returns:
        None where nothing can be read, with the reasons.
    """
    first, problems = _read(path, name, forms, GridForm())
    if first is not None:
        grid, form, header = first
        declared = _declared(form, grid)
        if declared != GridForm() and not as_table(grid).is_ours:
            again, found = _read(path, name, (form,), declared)
            if again is None:
                return None, found
            grid, form, header = again
        return (grid, read_rows(grid, form, header), form), ()
    for form in forms:
        if form.grid != GridForm():
            tried, _ = _read(path, name, (form,), form.grid)
            if tried is not None:
                return (tried[0], read_rows(*tried), form), ()
    return None, in_order(problems)


def _read(
    path: Path, name: str, forms: Sequence[LaboratoryForm], grid_form: GridForm
) -> tuple[tuple[Grid, LaboratoryForm, int] | None, tuple[Problem, ...]]:
    """Return the cells of a file, its form, and the index of the row of its headings."""
    grid, problems = read_grid(path, name, grid_form)
    if grid is None:
        return None, problems
    found = find_form_for(grid, forms)
    if isinstance(found, Problem):
        return None, (found,)
    return (grid, *found), ()


def _declared(form: LaboratoryForm, grid: Grid) -> GridForm:
    """Return what a form declares otherwise than was found out; a mark at the file's beginning tells its encoding."""
    declared = form.grid
    if grid.kind is FileKind.XLSX:
        return GridForm(sheet=declared.sheet) if declared.sheet not in ("", grid.sheet) else GridForm()
    delimiter = declared.delimiter if declared.delimiter not in ("", grid.delimiter) else ""
    encoding = declared.encoding if declared.encoding.casefold() not in ("", grid.encoding.casefold()) else ""
    return GridForm(delimiter or (declared.delimiter if encoding else ""), encoding)


def with_reports(
    rows: Sequence[ReportedRow], form: LaboratoryForm, names: Mapping[str, str], name: str
) -> tuple[ReportedRow, ...]:
    """Return the rows of a form that gives no report number with the name of their file in its place.

    A row that comes back mended keeps the name of the file that it first came in.

    Args:
        rows: the rows.
        form: the form by which they were read.
        names: names of earlier files by the short form of their digest.
        name: the name of this file in the inbox.
    """
    if form.report is not None:
        return tuple(rows)
    return tuple(
        row if row.report else replace(row, report=Path(names.get(row.origin.partition(":")[0], name)).stem)
        for row in rows
    )
