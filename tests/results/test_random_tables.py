"""Random tables in random dialects come back equal; damaged ones lose no row."""

from __future__ import annotations

import random
from dataclasses import dataclass, replace
from typing import Any

import pytest

from soilrota.files import Grid, GridRow
from soilrota.model.intake import LaboratoryFile, ReportedRow, SetAsideRow
from soilrota.problems import Place, Severity, error
from soilrota.results.set_aside_table import set_aside_table
from tests.results.counts import RANDOM_TABLES
from tests.results.laboratory_grids import column, forms, grid, taken, written

DIGEST = "0123456789abcdef" * 4
# Atomic masses, rounded to five figures: the slow way from a unit to the glossary's.
OX, P, K, CA = 15.999, 30.974, 39.098, 40.078
#: Analysis, unit, what the number is multiplied by to reach the unit of the glossary.
WAYS = (
    ("phosphorus.colwell", "mg/kg", 1.0),
    ("phosphorus.colwell", "ppm", 1.0),
    ("phosphorus.olsen", "g/kg", 1000.0),
    ("phosphorus.bray-1", "mg/100g P2O5", 10 * 2 * P / (2 * P + 5 * OX)),
    ("potassium.colwell", "mg/kg K2O", 2 * K / (2 * K + OX)),
    ("potassium.exchangeable", "mg/kg", 1 / (10 * K)),
    ("potassium.ammonium-acetate", "cmol(+)/kg", 10 * K),
    ("calcium.exchangeable", "meq/100g", 1.0),
    ("calcium.exchangeable", "% CaO", 10_000 * CA / (CA + OX) / (10 * CA / 2)),
    ("magnesium.exchangeable", "mmol/kg", 0.2),
    ("conductivity.ec-1-5", "µS/cm", 0.001),
    ("organic-carbon.walkley-black", "g/kg", 0.1),
    ("ph.cacl2", "pH", 1.0),
)
SIGNS = ((".", ""), (".", ","), (".", " "), (".", "'"), (",", ""), (",", "."), (",", " "))


@dataclass(frozen=True)
class Known:
    """A measurement as it was meant: number [unit of the file], qualifier; None where nothing was measured."""

    number: float
    qualifier: str


@dataclass(frozen=True)
class Case:
    """A table, its form, and what was written into it: by row, then by analysis."""

    sheet: Grid
    form: dict[str, Any]
    known: tuple[dict[str, Known | None], ...]
    ways: tuple[tuple[str, str, float], ...]


def number_text(number: float, decimal: str, group: str) -> str:
    """Return a number as a laboratory writes it."""
    whole, _, decimals = f"{number:.10f}".rstrip("0").partition(".")
    digits = f"{int(whole):,}".replace(",", group) if group else whole
    return f"{digits}{decimal}{decimals}" if decimals else digits


def draw(rng: random.Random) -> Case:
    """Return a random table."""
    ways = tuple({way[0]: way for way in rng.sample(WAYS, rng.randint(1, 6))}.values())
    decimal, group = rng.choice(SIGNS)
    in_row, long = rng.random() < 0.3, rng.random() < 0.4
    known = []
    for _ in range(rng.randint(1, 12)):
        row: dict[str, Known | None] = {}
        for code, _unit, _by in ways:
            number = round(rng.choice((rng.uniform(0.1, 10), rng.uniform(10, 99_999))), rng.randint(1, 4))
            row[code] = None if rng.random() < 0.1 else Known(number, rng.choice(("", "", "", "<", ">")))
        known.append(row)
    form: dict[str, Any] = {
        "name": "drawn",
        "numbers": {"decimal": decimal, **({"group": group} if group else {}), "nd": "not measured"},
        "sample": "Bag",
    }

    def cell(value: Known | None) -> str:
        if value is None:
            return rng.choice(("", "–", "n.d.", "n/a", "not tested"))
        return f"{value.qualifier}{rng.choice(('', ' '))}{number_text(value.number, decimal, group)}"

    above = [["Results of soil"]] * rng.randint(0, 2)
    if long:
        form |= {"shape": "value-a-row", "analysis": "Test", "value": "Found", "unit": "In"}
        form["columns"] = [column(code.upper(), code) for code, _, _ in ways]
        rows = [[f"B-{i}", code, cell(row[code]), unit] for i, row in enumerate(known) for code, unit, _ in ways]
        sheet = grid(*above, ["Bag", "Test", "Found", "In"], *rows)
    else:
        form["columns"] = [
            column(code, code, **({"unit_row": True} if in_row else {"unit": unit})) for code, unit, _ in ways
        ]
        units = [["", *(unit for _, unit, _ in ways)]] if in_row else []
        rows = [[f"B-{i}", *(cell(row[code]) for code, _, _ in ways)] for i, row in enumerate(known)]
        sheet = grid(*above, ["Bag", *(code for code, _, _ in ways)], *units, *rows)
    return Case(sheet, form, tuple(known), ways)


def found_in(file: LaboratoryFile) -> dict[tuple[str, str], tuple[str, float]]:
    """Return the values that were read, by bag and analysis."""
    return {
        (row.sample, f"{value.analyte}.{value.method}"): (value.qualifier, value.value)
        for row in file.rows
        for value in row.values
    }


def meant_by(case: Case) -> dict[tuple[str, str], tuple[str, float]]:
    """Return the values that were written, in the unit of the glossary, by bag and analysis."""
    return {
        (f"B-{i}", code): (value.qualifier, value.number * by)
        for i, row in enumerate(case.known)
        for code, _, by in case.ways
        if (value := row[code]) is not None
    }


@pytest.mark.parametrize("seed", range(RANDOM_TABLES))
def test_what_was_written_comes_back(seed: int) -> None:
    """Every number, qualifier and gap, in every unit and dialect; nothing is set aside."""
    case = draw(random.Random(seed))
    file = taken(case.sheet, *forms(case.form))
    assert file.set_aside == ()
    found, meant = found_in(file), meant_by(case)
    assert found.keys() == meant.keys()
    for key, (qualifier, value) in meant.items():
        assert found[key] == (qualifier, pytest.approx(value, rel=2e-4)), key
    exact = {(bag, code) for bag, code in meant if any(way[0] == code and way[2] == 1.0 for way in case.ways)}
    assert {key: found[key] for key in exact} == {key: meant[key] for key in exact}


def damaged(sheet: Grid, rng: random.Random) -> Grid:
    """Return the table with random damage below its headings."""
    header = next(i for i, row in enumerate(sheet.rows) if row.cells[0] == "Bag")
    rows: list[GridRow] = list(sheet.rows[: header + 1])
    for row in sheet.rows[header + 1 :]:
        cells = list(row.cells)
        kind = rng.randrange(10)
        if kind == 0:
            cells = cells[: rng.randrange(len(cells) + 1)]
        elif kind == 1:
            cells.insert(rng.randrange(len(cells) + 1), rng.choice(("", "7", "x", "=1+1")))
        elif kind == 2:
            cells[rng.randrange(len(cells))] = rng.choice(
                ("", "#N/A", "1.2.3", "-", "\x00", "Bag", "1,234", "9" * 400, "\u0661")
            )
        elif kind == 3:
            cells = [rng.choice(("", " ")) for _ in cells]
        elif kind == 4:
            cells = list(sheet.rows[header].cells)
        wrong = error("open-quotes", Place(sheet.name, row.number), "open", "", "close") if kind == 5 else None
        rows.append(replace(row, cells=tuple(cells), wrong=wrong))
    return replace(sheet, rows=tuple(rows))


@pytest.mark.parametrize("seed", range(RANDOM_TABLES))
def test_no_row_of_a_damaged_table_is_lost(seed: int) -> None:
    """Rows read and rows set aside are together the rows with something in them, each once, each with its reasons."""
    rng = random.Random(seed)
    case = draw(rng)
    sheet = damaged(case.sheet, rng)
    file = taken(sheet, *forms(case.form))
    header = next(i for i, row in enumerate(sheet.rows) if row.cells[:1] == ("Bag",))
    full = [row.number for row in sheet.rows[header + 1 :] if row.wrong or any(cell.strip() for cell in row.cells)]
    if file.units:
        full = full[1:]
    assert sorted([row.number for row in file.rows] + [row.number for row in file.set_aside]) == full
    assert file.rows_read == len(full)
    for row in file.set_aside:
        assert row.reasons
        assert all(one.mend and one.found and one.severity is Severity.ERROR for one in row.reasons)
    # What was read of an undamaged row is what was written.
    meant = meant_by(case)
    untouched = {row.number for row, was in zip(sheet.rows, case.sheet.rows, strict=True) if row == was}
    for row in file.rows:
        for value in row.values if row.number in untouched else ():
            assert value.value == pytest.approx(meant[row.sample, f"{value.analyte}.{value.method}"][1], rel=2e-4)


@pytest.mark.parametrize("seed", range(RANDOM_TABLES))
def test_all_rows_set_aside_and_dropped_again_say_the_same(seed: int) -> None:
    """Every row of a table, set aside and read again, says what it said; rows that were wrong are wrong again."""
    rng = random.Random(seed)
    case = draw(rng)
    known = forms(case.form)
    stored = grid(*(row.cells for row in case.sheet.rows), kind="xlsx", numeric=case.form["numbers"]["decimal"] == ".")
    file = taken(rng.choice((case.sheet, stored)), *known)
    aside = [_aside(row) for row in file.rows]
    again = taken(written(set_aside_table(file, aside, DIGEST)), *known)
    assert again.set_aside == ()
    assert [row.origin for row in again.rows] == [f"{DIGEST[:12]}:{row.number}" for row in file.rows]
    assert found_in(again) == found_in(file)
    assert again.units == file.units


def _aside(row: ReportedRow) -> SetAsideRow:
    """Return a row that was read as one that is set aside later on."""
    reason = error("unknown-bag", row.place, f"bag {row.sample}", "a bag that was given out", "correct it")
    return SetAsideRow(row.number, row.origin, row.cells, (reason,))
