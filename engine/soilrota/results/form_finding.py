"""Which laboratory wrote a file, by its headings, and in which row they stand."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from soilrota.files import heading_key
from soilrota.files.grid_rows import Grid
from soilrota.model.laboratory_files import LaboratoryForm, RowShape, Spot
from soilrota.problems import Place, Problem, error
from soilrota.results.laboratory_table import MOST_ROWS_ABOVE, Table, TableRow, as_table
from soilrota.results.row_facts import label_spots, spots_of

_NAMES_LOOKED_AT = 200


@dataclass(frozen=True, slots=True)
class _Fit:
    """How well a form explains a row of headings; `rank` is the greater the better."""

    form: LaboratoryForm
    row: int
    missing: tuple[str, ...]
    rank: tuple[int, int, int]


def find_form_for(grid: Grid, forms: Sequence[LaboratoryForm]) -> tuple[LaboratoryForm, int] | Problem:
    """Return the form in which a file is written, and the index of the row of its headings.

    A form is a candidate where the bag's heading and at least one analysis (of one value a row: the headings of names
    and values) stand in one of the first 60 rows; the first such row is its row. Of several candidates the one is taken
    that explains most headings, then the one that misses the fewest of its own, then the one that knows most of the
    names of analyses.

    Args:
        grid: the file.
        forms: the forms of all laboratories.

    Returns:
        A problem where no form fits (`form-not-found`), two fit alike (`form-unclear`) or a heading that the form reads
        stands twice (`heading-twice`).
    """
    table = as_table(grid)
    keys = [_keys(row) for row in table.rows[:MOST_ROWS_ABOVE]]
    fits = [_fit(table, keys, form) for form in forms]
    there = [fit for fit in fits if fit is not None and not fit.missing]
    if not there:
        return _not_found(table, [fit for fit in fits if fit is not None])
    best = max(fit.rank for fit in there)
    first, *others = [fit for fit in there if fit.rank == best]
    if others:
        names = " and ".join(_name(fit.form) for fit in (first, *others))
        mend = "declare what tells them apart: a heading, a label above the table, or what the form ignores"
        if len({fit.form.laboratory for fit in (first, *others)}) > 1:
            mend += "; or drop the file into inbox/<laboratory>/"
        return error("form-unclear", table.place(table.rows[first.row]), f"headings of {names}", "one", mend)
    twice = _twice(table, first, keys[first.row])
    return twice or (first.form, first.row)


def _keys(row: TableRow) -> list[str]:
    """Return what the cells of a row are compared by."""
    return [heading_key(cell) for cell in row.cells]


def read_headings(form: LaboratoryForm) -> set[str]:
    """Return the keys of the headings that a form reads."""
    keys = {heading_key(spot.heading) for _, spot in spots_of(form) if spot.heading}
    if form.shape is RowShape.SAMPLE:
        keys |= {heading_key(column.heading) for column in form.columns}
    return keys


def known_headings(form: LaboratoryForm) -> set[str]:
    """Return the keys of the headings that a form reads or passes over on purpose."""
    return read_headings(form) | {heading_key(word) for word in form.ignored}


def _fit(table: Table, keys: list[list[str]], form: LaboratoryForm) -> _Fit | None:
    """Return how a form fits its first row of headings, or the row that is most like one; None where no heading is."""
    fits = [_fit_of_row(table, keys, form, i) for i, row in enumerate(keys) if read_headings(form) & set(row)]
    whole = next((fit for fit in fits if not fit.missing), None)
    if whole is None and fits:
        return max(fits, key=lambda fit: (-len(fit.missing), fit.rank))
    return whole


def _fit_of_row(table: Table, keys: list[list[str]], form: LaboratoryForm, row: int) -> _Fit:
    """Return how a form fits one row."""
    there = set(keys[row])
    labels = label_spots(form)
    found = sum(1 for _, spot in labels if _has_label(keys[:row], spot))
    own = read_headings(form)
    lacks = len(own - there) + len(labels) - found
    explained = len(known_headings(form) & there) + found
    missing = (*_missing(form, there), *_other_kind(table, form))
    return _Fit(form, row, missing, (explained, -lacks, 0 if missing else _names_known(table, keys[row], form, row)))


def _missing(form: LaboratoryForm, there: set[str]) -> Iterable[str]:
    """Yield, in words, what a form cannot do without and a row does not have."""
    for spot in (form.sample, form.analysis, form.value):
        if spot is not None and heading_key(spot.heading) not in there:
            yield f"'{spot.heading}'"
    if form.shape is RowShape.SAMPLE and not any(heading_key(column.heading) in there for column in form.columns):
        yield "any column of an analysis"


def _other_kind(table: Table, form: LaboratoryForm) -> Iterable[str]:
    """Yield, in words, that a form comes in another kind of file; rows that we set aside always come back as CSV."""
    if table.is_ours:
        return
    if form.kind is not None and form.kind != table.grid.kind:
        yield f"a file of kind {form.kind}"
    if form.grid.sheet and table.grid.sheet and form.grid.sheet != table.grid.sheet:
        yield f"the sheet '{form.grid.sheet}'"


def _has_label(above: Iterable[list[str]], spot: Spot) -> bool:
    """Return whether a label stands in the rows above."""
    wanted = heading_key(spot.label.rstrip(": "))
    return any(key.partition(":")[0].strip() == wanted for row in above for key in row)


def _names_known(table: Table, header: list[str], form: LaboratoryForm, row: int) -> int:
    """Return how many names of analyses in the first rows a form of one value a row knows [-]."""
    if form.analysis is None:
        return 0
    column = header.index(heading_key(form.analysis.heading))
    below = table.rows[row + 1 : row + 1 + _NAMES_LOOKED_AT]
    names = {heading_key(one.cell(column)) for one in below}
    return len(names & {heading_key(one.heading.partition("|")[0]) for one in form.columns})


def _twice(table: Table, fit: _Fit, header: list[str]) -> Problem | None:
    """Return that a heading that the form reads stands twice."""
    counts = Counter(header)
    row = table.rows[fit.row]
    for column, key in enumerate(header):
        if counts[key] > 1 and key in read_headings(fit.form) and header.index(key) < column:
            mend = "take one of the two out, or give it another heading"
            found = f"the heading '{row.cell(column)}' stands twice"
            return error("heading-twice", table.place(row, column), found, "each heading once", mend)
    return None


def _not_found(table: Table, fits: list[_Fit]) -> Problem:
    """Return that no form fits, with the nearest and what the file lacks for it."""
    if not fits:
        place = table.place(table.rows[0]) if table.rows else Place(table.grid.name)
        found = "no heading of any laboratory of the book"
        mend = "draft the laboratory's file with soilrota learn-laboratory, or correct the headings"
        return error("form-not-found", place, found, "the headings of one form", mend)
    near = min(fits, key=lambda fit: (len(fit.missing), -fit.rank[0], fit.rank[1:]))
    place = table.place(table.rows[near.row])
    found = f"headings most like those of {_name(near.form)}, without {', '.join(near.missing)}"
    mend = f"correct the headings, or the form at {near.form.place}"
    return error("form-not-found", place, found, "the headings of one form", mend)


def _name(form: LaboratoryForm) -> str:
    """Return the laboratory and the name of a form."""
    return f"{form.laboratory} ({form.name})"
