"""A laboratory's file drafted from its table: what is certain is written; filled in, it reads the file."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from soilrota.batch.blanks import BLANK
from soilrota.book import load_shared
from soilrota.files import Grid
from soilrota.model.intake import LaboratoryFile
from soilrota.results.drafting import draft_form
from tests.book.small_book import PRACTICE
from tests.results.laboratory_grids import grid, lines, taken

WIDE = """\
Soil results;;;;;;;;
Report no.:;77;;;;;;;
Reported on;3/4/2026;;;;;;;

Sample No.;Grower;Depth (cm);Date sampled;pH (CaCl2);Colwell P mg/kg;K2O mg/100g;EC;Org. C %
B-1;Lee;0-10;20/02/2026;5,2;27,5;12,1;0,1;<LOD
B-2;Lee;0-10;20/02/2026;5,2;1.027,5;n.d.;0,1;1
"""
LONG = """\
Bag,Test,Procedure,Result,Units
B-1,Phosphorus,Colwell,27.5,mg/kg
B-1,Phosphorus,Olsen,0.012,g/kg
B-1,pH,CaCl2,5.2,-
"""
FILLED = {
    "name of the laboratory": "North Bench Laboratory",
    "two letters": "AU",
    "working days from": "8",
    "working days that": "2",
    "not measured or below": "not measured",
    "day-month-year or": "day-month-year",
    "heading of": "Id",
    "lower reporting limit": "0.05",
    "point or comma": ".",
    "unit": "dS/m",
}


def filled(draft: str) -> str:
    """Return a draft with something fitting in every blank: the nearest analysis where one is named."""
    done = []
    for line in draft.splitlines():
        nearest = re.search(r"# nearest: (\S+)", line)
        value = nearest[1] if nearest else "phosphorus.olsen" if "analyte and method" in line else None
        wanted = next((what for what in FILLED if f"{BLANK} {what}" in line), "")
        done.append(
            re.sub(rf"{BLANK}[^\"#]*[^\"# ]", value or FILLED.get(wanted, ""), line) if BLANK in line[:80] else line
        )
    return "\n".join(done) + "\n"


def learnt(sheet: Grid, root: Path) -> LaboratoryFile:
    """Return a table as it is read by its own draft, once that is filled in and stands in a book."""
    (root / "laboratories").mkdir()
    (root / "practice.yaml").write_text(PRACTICE, encoding="utf-8")
    (root / "laboratories" / "north-bench.yaml").write_text(filled(draft_form(sheet)), encoding="utf-8")
    shared, problems = load_shared(root)
    assert shared is not None, [str(problem) for problem in problems]
    return taken(sheet, *shared.practice.laboratories["north-bench"].forms)


def test_a_table_of_samples(tmp_path: Path) -> None:
    """Signs, days, labels, facts, units and analyses; what is unsure is a blank with the nearest."""
    sheet = lines(WIDE, ";")
    draft = draft_form(sheet)
    for written in (
        'delimiter: ";"',
        'decimal: ","',
        'group: "."',
        f"nd: {BLANK} not measured or below limit",
        "day_form: day-month-year",
        'sample: "Sample No."',
        'report: {label: "Report no."}',
        "reported: {label: Reported on}",
        "analysis: phosphorus.colwell",
        'unit: "mg/100g K2O"',
        "# nearest: conductivity.ec-1-5",
        f"low: {BLANK} lower reporting limit",
    ):
        assert written in draft
    file = learnt(sheet, tmp_path)
    assert (file.set_aside, file.notes) == ((), ())
    assert [(row.report, str(row.reported), str(row.sampled), row.depth) for row in file.rows] == [
        ("77", "2026-04-03", "2026-02-20", (0, 10))
    ] * 2
    first, second = file.rows
    assert [value.value for value in first.values] == [5.2, 27.5, pytest.approx(100.4, rel=1e-3), 0.1, 0.05]
    assert [value.value for value in second.values] == [5.2, 1027.5, 0.1, 1]


def test_a_list_of_values(tmp_path: Path) -> None:
    """One value a row: a name with its method for each analysis; units stay in the file."""
    sheet = lines(LONG)
    draft = draft_form(sheet)
    assert "shape: value-a-row" in draft
    assert 'heading: "Phosphorus | Olsen"' in draft
    assert 'unit: "g/kg"' not in draft
    file = learnt(sheet, tmp_path)
    assert file.set_aside == ()
    assert [(row.values[0].method, row.values[0].value) for row in file.rows] == [
        ("colwell", 27.5),
        ("olsen", 12),
        ("cacl2", 5.2),
    ]


def test_a_workbook_with_a_row_of_units(tmp_path: Path) -> None:
    """Stored numbers need no signs; the units are left where they stand."""
    rows = (["Bag tag", "Bray-1 P", "Soil pH"], ["", "ppm", ""], ["B-1", "12.5", "6"])
    sheet = grid(*rows, kind="xlsx", numeric=True, delimiter="", sheet="Soil: north")
    draft = draft_form(sheet)
    assert 'sheet: "Soil: north"' in draft
    assert "unit_row: true" in draft
    assert "numbers:" not in draft
    (row,) = learnt(sheet, tmp_path).rows
    assert [value.value for value in row.values] == [12.5, 6]


def test_what_only_a_person_can_say(tmp_path: Path) -> None:
    """Which sign, which order of days, which column holds the bag: blanks, with what there is to choose from."""
    sheet = lines('Id,Sampled on,Zeal\nB-1,1/2/2026,"1.234"\nB-2,3/2/2026,"2.345"\n')
    draft = draft_form(sheet)
    assert f'decimal: "{BLANK} point or comma"' in draft
    assert f"day_form: {BLANK} day-month-year or month-day-year" in draft
    assert f'sample: "{BLANK} heading of the bag id"  # one of Id, Sampled on, Zeal' in draft
    draft = filled(draft).replace("dS/m", "mg/kg").replace("  - Id\n", "")
    assert "ignored:\n" in draft


@pytest.mark.parametrize(
    "rows",
    [
        (),
        ([""],),
        (["a"],),
        (["a", "b"], ["1", "2"]),
        (["P", "P"], ["1", "2"]),
        (['x"#{', "no", "- y: [z]"], ["1", "2", "3"]),
    ],
)
def test_any_table_gives_a_draft_that_is_yaml(rows: tuple[list[str], ...], tmp_path: Path) -> None:
    """However little a table says, what is wrong with the draft is its blanks."""
    from soilrota.files import read_yaml

    file = tmp_path / "draft.yaml"
    file.write_text(filled(draft_form(grid(*rows))), encoding="utf-8")
    _, problems = read_yaml(file, "draft.yaml", "laboratory")
    assert [str(problem) for problem in problems] == []
