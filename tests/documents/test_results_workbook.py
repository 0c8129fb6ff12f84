"""The workbook of results, read back by two readers: cells, forms, safety, bytes."""

from __future__ import annotations

import io
import zipfile
from dataclasses import replace
from datetime import UTC, date, datetime
from typing import Any

import openpyxl
import pytest
from python_calamine import CalamineWorkbook

from soilrota.documents import ResultsData, results_data, results_table, results_workbook
from tests.documents.made import CLIENTS, example
from tests.documents.results_made import COLWELL, DAY, EVIL, LOW, PLAIN, data
from tests.documents.shouting import shout, unsaid


def _sheets(results: ResultsData) -> Any:
    """Return the workbook as read back."""
    return openpyxl.load_workbook(io.BytesIO(results_workbook(results, DAY)))


def test_a_row_a_bag_with_units_in_the_headings() -> None:
    """Analyses stand beside one another; numbers in the form of their method; no unit where there is none."""
    sheet = _sheets(data())["Bags"]
    assert [cell.value for cell in sheet[1]][-3:] == ["pH (CaCl2)", "Colwell P [mg/kg]", "Findings and corrections"]
    assert sheet.max_row == 3
    ph, colwell = sheet["K2"], sheet["L2"]
    assert (ph.value, ph.number_format) == (5.234, "0.0")
    assert (colwell.value, colwell.number_format) == (27, "0")
    assert (sheet["G2"].value, sheet["G2"].number_format) == (datetime(2027, 1, 5), "yyyy-mm-dd")  # noqa: DTZ001
    assert (sheet.freeze_panes, sheet.auto_filter.ref) == ("E2", "A1:M3")


def test_a_value_beyond_the_range_is_text() -> None:
    """So that nobody adds it up; where a bag lacks an analysis its cell is empty."""
    sheet = _sheets(data())["Bags"]
    assert (sheet["L3"].value, sheet["L3"].data_type) == ("<1", "s")
    assert sheet["K3"].value is None


def test_text_has_the_decimals_of_the_language_and_numbers_are_numbers() -> None:
    """A printed value is read by people; what a spreadsheet reckons with is a number; programs find a point."""
    low = replace(PLAIN, bag="B-3", qualifier="<", value=4.0)
    results = replace(data(PLAIN, low), language="es")
    bags, values, _ = _sheets(results).worksheets
    assert [cell.value for cell in bags["K"]][1:] == [5.234, "<4,0"]
    printed = [cell.value for cell in values["U"]][1:]
    assert printed == ["5,2", "<4,0"]
    assert b"<4.0" in results_table(results)


def test_every_heading_and_every_word_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    """In a language of capitals small letters stand in what the book calls things alone."""
    shout(monkeypatch)
    book = _sheets(data())
    assert [sheet.title for sheet in book] == ["BAGS", "VALUES", "ABOUT"]
    about = " ".join(str(cell.value) for row in book["ABOUT"] for cell in row)
    assert {*unsaid(about)} <= {"Ash", "Farm", "Small", "Soil", "Practice", "February"}
    assert "15 February 2027" in about
    heads = [str(cell.value) for name in ("BAGS", "VALUES") for cell in book[name][1]]
    assert {*unsaid(" ".join(heads))} <= {"CaCl2", "Colwell"}


def test_a_bag_of_two_reports_has_two_rows_and_two_units_two_columns() -> None:
    """Nothing is laid over anything else."""
    again = replace(PLAIN, report="R-2", value=5.9)
    other = replace(COLWELL, unit="mg/L")
    sheet = _sheets(data(PLAIN, again, COLWELL, other))["Bags"]
    headings = [cell.value for cell in sheet[1]]
    assert headings[-4:-1] == ["pH (CaCl2)", "Colwell P [mg/kg]", "Colwell P [mg/L]"]
    assert [sheet[f"K{row}"].value for row in (2, 3)] == [5.234, 5.9]


def test_findings_and_corrections_stand_with_their_bag() -> None:
    """Each sentence once, in both sheets."""
    odd = replace(PLAIN, findings="It is odd.", corrections="It was 5.1.")
    book = _sheets(data(odd, replace(COLWELL, findings="It is odd.")))
    assert book["Bags"]["M2"].value == "It is odd. It was 5.1."
    assert [cell.value for cell in book["Values"]["W"]][1:] == ["It is odd.", "It is odd."]


@pytest.mark.parametrize("text", EVIL)
def test_every_text_is_text(text: str) -> None:
    """Nothing in the file is a formula or an error, whatever a name begins with; what XML cannot carry is replaced."""
    evil = replace(
        LOW, **dict.fromkeys(("zone_name", "bag", "report", "as_reported", "name", "unit", "findings"), text)
    )
    content = results_workbook(replace(data(evil), client=text, practice=text), DAY)
    with zipfile.ZipFile(io.BytesIO(content)) as parts:
        sheets = [parts.read(name) for name in parts.namelist() if name.startswith("xl/worksheets/")]
    assert len(sheets) == 3
    assert not [sheet for sheet in sheets if b"<f>" in sheet or b"<f " in sheet or b't="e"' in sheet]
    book = openpyxl.load_workbook(io.BytesIO(content))
    shown = text.replace("\x00", "\ufffd").replace("\x1f", "\ufffd")
    assert (book["Bags"]["B2"].value, book["Bags"]["B2"].data_type) == (shown, "s")
    assert book["Values"]["V2"].value == shown


@pytest.mark.parametrize("client_id", CLIENTS)
def test_values_of_the_example_come_back_through_another_reader(client_id: str) -> None:
    """Every number and every text with a sign, by a reader that shares no code with the writer."""
    results = results_data(example(client_id))
    if not results.values:
        assert client_id == "juniper-start"
        return
    sheet = CalamineWorkbook.from_filelike(io.BytesIO(results_workbook(results, DAY))).get_sheet_by_name("Values")
    head, *rows = sheet.to_python()
    place = {name: number for number, name in enumerate(head)}
    assert [row[place["Value"]] for row in rows] == [one.value for one in results.values]
    assert [row[place["Unit"]] for row in rows] == [one.unit for one in results.values]
    assert [row[place["Sampled"]] for row in rows] == [one.sampled for one in results.values]


def test_the_same_results_give_the_same_bytes_and_bear_their_day() -> None:
    """No clock: properties carry the document's date, and the parts of the archive the first day that it knows."""
    content = results_workbook(data(), DAY)
    assert content == results_workbook(data(), DAY)
    assert content != results_workbook(data(), date(2027, 2, 16))
    with zipfile.ZipFile(io.BytesIO(content)) as parts:
        assert {part.date_time for part in parts.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        core = parts.read("docProps/core.xml").decode()
    assert core.count("2027-02-15T00:00:00Z") == 2
    assert str(datetime.now(tz=UTC).date()) not in core
    assert "Results of Ash Farm" in core
