"""A first draft of a laboratory's file from one of its tables: what is certain is written, what is not is a blank.

A blank begins with `__FILL__` and says what to write, as in every new file of a book.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from soilrota.files import heading_key
from soilrota.files.grid_rows import Grid
from soilrota.model.laboratory_files import Spot
from soilrota.quantities import (
    NoNumber,
    NumberForm,
    Refusal,
    Value,
    find_form,
    method,
    read_unit,
    read_value,
    split_code,
)
from soilrota.results.heading_guess import Guess, guess_analysis, guess_role
from soilrota.results.laboratory_table import MOST_ROWS_ABOVE, Table, TableRow, as_table
from soilrota.results.row_facts import labelled, read_day

_BLANK = "__FILL__"
_ONE_VALUE = ("analysis", "value", "unit", "method")
_ABOVE = ("report", "issue", "sampled", "received", "reported", "depth", "top", "bottom")
_DAYS = ("sampled", "received", "reported")
_MOST_COLUMNS = 300
_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9]*(?:[ -][A-Za-z0-9]+)*")
#: Words that YAML files of a book want in quotes, because they may be read as something else.
_NOT_PLAIN = re.compile(r"y|n|yes|no|on|off|true|false|null|nan|inf", re.IGNORECASE)
_HEAD = f"""\
# A laboratory. Every blank begins with {_BLANK}; `soilrota check` lists those that are left.
name: {_BLANK} name of the laboratory
country: {_BLANK} two letters such as AU
turnaround_working_days: {_BLANK} working days from receipt to results
courier_days: {_BLANK} working days that a bag is on its way
forms:
  - name: results
"""


@dataclass(frozen=True, slots=True)
class _Column:
    """A column of the table: its heading, the fact that it names, and its cells below."""

    index: int
    heading: str
    role: str
    cells: tuple[str, ...]
    stored: tuple[bool, ...]

    def texts(self) -> Iterator[str]:
        """Yield the cells that a sheet does not store as numbers."""
        return (cell for cell, is_stored in zip(self.cells, self.stored, strict=True) if not is_stored)


@dataclass(frozen=True, slots=True)
class _Meaning:
    """What a heading, or a name of an analysis, probably means, and the cells that it holds for."""

    name: str
    guess: Guess
    unit_row: bool
    cells: tuple[str, ...]


def draft_form(grid: Grid) -> str:
    """Return a laboratory's file (YAML) with one form, drafted from a table of results.

    The text loads as a laboratory of a book once its blanks are filled in.

    Args:
        grid: the table.
    """
    table = as_table(grid)
    header = _header(table)
    if header is None:
        lines = [f"sample: {_BLANK} heading of the bag id", *_lines_of_columns([], in_file=False)]
        return _HEAD + "".join(f"    {line}\n" for line in lines)
    below = [row for row in table.rows[header + 1 :] if not row.is_empty and row.wrong is None]
    units = _row_of_units(table.rows[header], below)
    columns = _columns(table.rows[header], [row for row in below if row is not units])
    roles = _roles(columns)
    is_list = "analysis" in roles and "value" in roles
    if not is_list:
        roles = {role: column for role, column in roles.items() if role not in _ONE_VALUE}
    named = [column for column in columns if roles.get(column.role) is column]
    others = [column for column in columns if column not in named]
    meanings = _of_names(roles) if is_list else list(_of_columns(others, units))
    known = {heading_key(meaning.name) for meaning in meanings}
    ignored = [column.heading for column in others if is_list or heading_key(column.heading) not in known]
    labels = _labels(table, header, roles)
    numbers = [roles["value"]] if is_list else [column for column in others if column.heading not in ignored]
    parts = (
        _lines_of_grid(grid, is_list=is_list),
        _lines_of_numbers(numbers),
        _lines_of_days(_days(table, header, roles, labels)),
        _lines_of_roles(roles, labels, columns),
        _lines_of_columns(meanings, in_file="unit" in roles),
        _lines_of_ignored(ignored),
    )
    return _HEAD + "".join(f"    {line}\n" for part in parts for line in part)


def _header(table: Table) -> int | None:
    """Return the index of the row that names most facts and analyses, or else has most cells; None without rows."""
    rows = [row for row in table.rows[:MOST_ROWS_ABOVE] if row.wrong is None and not row.is_empty]
    if not rows:
        return None
    best = max(rows, key=lambda row: (_known_names(row), sum(1 for cell in row.cells if cell.strip())))
    return table.rows.index(best)


def _known_names(row: TableRow) -> int:
    """Return how many different cells of a row name a fact or an analysis [-]; 0 where fewer than two do."""
    cells = {cell for cell in row.cells if cell.strip() and not isinstance(read_value(cell), Value)}
    known = sum(1 for cell in cells if guess_role(cell) or guess_analysis(cell).code)
    return known if known > 1 else 0


def _row_of_units(header: TableRow, below: Sequence[TableRow]) -> TableRow | None:
    """Return the row below the headings where it holds units and no number."""
    if not below:
        return None
    cells = [cell for cell in below[0].cells[: len(header.cells)] if cell.strip()]
    if any(isinstance(read_value(cell), Value) for cell in cells):
        return None
    return below[0] if any(not isinstance(read_unit(cell), Refusal) for cell in cells) else None


def _columns(header: TableRow, below: Sequence[TableRow]) -> list[_Column]:
    """Return the columns that have a heading; of two with the same heading the first."""
    columns: dict[str, _Column] = {}
    for index, heading in enumerate(header.cells):
        if heading.strip() and heading_key(heading) not in columns:
            cells = tuple(row.cell(index) for row in below)
            stored = tuple(index in row.numeric for row in below)
            columns[heading_key(heading)] = _Column(
                index, " ".join(heading.split()), guess_role(heading), cells, stored
            )
    return list(columns.values())


def _roles(columns: Iterable[_Column]) -> dict[str, _Column]:
    """Return the first column that names each fact."""
    roles: dict[str, _Column] = {}
    for column in columns:
        if column.role:
            roles.setdefault(column.role, column)
    return roles


def _of_columns(columns: Iterable[_Column], units: TableRow | None) -> Iterator[_Meaning]:
    """Yield the columns that hold values: those that name an analyte, and those with more numbers than texts."""
    for column in columns:
        in_row = _unit_or_none(units.cell(column.index) if units is not None else "")
        guess = guess_analysis(column.heading, in_row)
        filled = [cell for cell in column.cells if cell]
        values = sum(1 for cell in filled if isinstance(read_value(cell), Value) or _is_number(cell))
        if guess.code or (filled and 2 * values > len(filled)):
            yield _Meaning(column.heading, guess, bool(in_row), column.cells)


def _is_number(cell: str) -> bool:
    """Return whether a cell is a number in some form."""
    return any(isinstance(read_value(cell, NumberForm(*signs)), Value) for signs in ((".", ","), (",", ".")))


def _of_names(roles: dict[str, _Column]) -> list[_Meaning]:
    """Return the names of analyses of a table of one value a row, each with its method where there are methods."""
    found: dict[str, tuple[str, str, list[str]]] = {}
    names, how, units = roles["analysis"].cells, roles.get("method"), roles.get("unit")
    for i, name in enumerate(names):
        ways = how.cells[i] if how is not None else ""
        if name:
            shown = f"{name} | {ways}" if ways else name
            entry = found.setdefault(heading_key(shown), (shown, units.cells[i] if units else "", []))
            entry[2].append(roles["value"].cells[i])
    return [
        _Meaning(
            shown, guess_analysis(shown.replace("|", " "), _unit_or_none(unit)), unit_row=False, cells=tuple(cells)
        )
        for shown, unit, cells in found.values()
    ]


def _unit_or_none(text: str) -> str:
    """Return a text where it is a unit; an empty text where it is none."""
    return "" if isinstance(read_unit(text), Refusal) else text


def _lines_of_grid(grid: Grid, *, is_list: bool) -> Iterator[str]:
    """Yield how the cells of the file are told apart, and what a row holds."""
    yield f"kind: {grid.kind}"
    if grid.delimiter:
        yield f"delimiter: {json.dumps(grid.delimiter)}"
    if grid.encoding:
        yield f"encoding: {_quoted(grid.encoding)}"
    if grid.sheet:
        yield f"sheet: {_quoted(grid.sheet)}"
    if is_list:
        yield "shape: value-a-row"


def _lines_of_numbers(columns: Sequence[_Column]) -> Iterator[str]:
    """Yield how numbers are written, where the cells tell, or a blank where only a person can."""
    cells = [cell for column in columns for cell in column.texts()]
    found = find_form(cells)
    has_nd = any(_is_nd(cell) for cell in cells)
    lines = []
    if isinstance(found, NumberForm):
        lines.append(f'decimal: "{found.decimal}"')
        lines += [f'group: "{found.group}"'] if found.group else []
    elif any(set(".,") & set(cell) and _is_number(cell) for cell in cells):
        lines.append(f'decimal: "{_BLANK} point or comma"  # {found.found}'.replace("\n", " "))
    if has_nd:
        lines.append(f"nd: {_BLANK} not measured or below limit")
    if lines:
        yield "numbers:"
        yield from (f"  {line}" for line in lines)


def _is_nd(cell: str) -> bool:
    """Return whether a cell says `n.d.`, which only the laboratory can explain."""
    declared = read_value(cell, NumberForm(".", nd="not measured"))
    return isinstance(declared, NoNumber) and isinstance(read_value(cell, NumberForm(".")), Refusal)


def _lines_of_days(cells: Sequence[str]) -> Iterator[str]:
    """Yield the order of days that reads all of them, or a blank where more than one order does, or none."""
    if all(_reads(cell, "year-month-day") for cell in cells):
        return
    orders = [order for order in ("day-month-year", "month-day-year") if all(_reads(cell, order) for cell in cells)]
    yield f"day_form: {orders[0] if len(orders) == 1 else f'{_BLANK} day-month-year or month-day-year'}"


def _reads(cell: str, order: str) -> bool:
    """Return whether a cell is a day in an order."""
    return not isinstance(read_day(cell, order), Refusal)


def _labels(table: Table, header: int, roles: dict[str, _Column]) -> dict[str, str]:
    """Return the label of each fact that stands above the table and under no heading."""
    labels: dict[str, str] = {}
    for row in table.rows[:header]:
        for cell in row.cells:
            label = cell.partition(":")[0].strip()
            role = guess_role(label)
            if role in _ABOVE and role not in roles:
                labels.setdefault(role, label)
    return labels


def _days(table: Table, header: int, roles: dict[str, _Column], labels: dict[str, str]) -> list[str]:
    """Return every cell that should be a day."""
    cells = [cell for role in _DAYS if role in roles for cell in roles[role].cells]
    for role in _DAYS:
        cells += [text for text, _ in labelled(table, header, Spot(label=labels[role]))] if role in labels else []
    return [cell for cell in cells if cell]


def _lines_of_roles(roles: dict[str, _Column], labels: dict[str, str], columns: Sequence[_Column]) -> Iterator[str]:
    """Yield where the facts stand: under headings, or beside labels above the table."""
    if "sample" not in roles:
        near = ", ".join(column.heading for column in columns[:6])
        yield f'sample: "{_BLANK} heading of the bag id"  # one of {near}'
    yield from (f"{role}: {_quoted(column.heading)}" for role, column in roles.items())
    yield from (f"{role}: {{label: {_quoted(label)}}}" for role, label in labels.items())


def _lines_of_columns(meanings: Sequence[_Meaning], *, in_file: bool) -> Iterator[str]:
    """Yield what each column, or each name, means."""
    yield "columns:"
    if not meanings:
        yield f"  - heading: {_BLANK} heading of a column of values"
        yield f"    analysis: {_BLANK} analyte and method such as phosphorus.olsen"
        yield f'    unit: "{_BLANK} unit"'
    for meaning in meanings[:_MOST_COLUMNS]:
        guess = meaning.guess
        yield f"  - heading: {_quoted(meaning.name)}"
        nearest = f"  # nearest: {guess.code}" if guess.code else ""
        blank = f"{_BLANK} analyte and method such as phosphorus.olsen{nearest}"
        yield f"    analysis: {guess.code if guess.is_sure else blank}"
        if meaning.unit_row:
            yield "    unit_row: true"
        elif not guess.unit:
            yield from _unit_blank(guess)
        elif not in_file:
            yield f"    unit: {_quoted(guess.unit)}"
        if any(_is_below_limit(cell) for cell in meaning.cells):
            yield f"    low: {_BLANK} lower reporting limit in that unit"


def _unit_blank(guess: Guess) -> Iterator[str]:
    """Yield a unit that has no choice (pH, index), or a blank."""
    known = method(*split_code(guess.code))
    unit = known.unit if known is not None else ""
    if unit in {"pH", "index"}:
        yield f"    unit: {unit}"
    else:
        yield f'    unit: "{_BLANK} unit"' + (f"  # perhaps {unit}" if unit else "")


def _is_below_limit(cell: str) -> bool:
    """Return whether a cell says that less was there than the laboratory can tell, without saying how much."""
    found = read_value(cell)
    return isinstance(found, NoNumber) and found.meaning == "below limit"


def _lines_of_ignored(headings: Sequence[str]) -> Iterator[str]:
    """Yield the headings that hold texts, for a person to look through."""
    if headings:
        yield "# Take out of this list what holds results, and name it under columns."
        yield "ignored:"
        yield from (f"  - {_quoted(heading)}" for heading in headings[:_MOST_COLUMNS])


def _quoted(text: str) -> str:
    """Return a text as YAML writes it: in quotes where it could be read as something else."""
    if _PLAIN.fullmatch(text) and not _NOT_PLAIN.fullmatch(text):
        return text
    return json.dumps(text, ensure_ascii=False)
