"""Files of a client, each read by itself."""

from __future__ import annotations

from datetime import date

from soilrota.book.client_files import read_client_files
from soilrota.problems import Place
from tests.book.small_book import Book


def test_optional_files(book: Book) -> None:
    """Only client.yaml must be there."""
    files, problems = read_client_files(book.root, "anvil-creek")
    assert problems == ()
    assert files.client is not None
    assert (files.map, files.map_failed, files.applications, files.results) == (None, False, None, ())


def test_one_broken_file_stops_no_other(book: Book) -> None:
    """A broken map is reported, and the client's file is read."""
    book.write("map.geojson", "{")
    files, problems = read_client_files(book.root, "anvil-creek")
    assert files.client is not None
    assert (files.map, files.map_failed) == (None, True)
    assert {problem.place.file for problem in problems} == {"clients/anvil-creek/map.geojson"}


def test_a_missing_client_file(book: Book) -> None:
    """A folder without client.yaml is a problem, not an exception."""
    files, problems = read_client_files(book.root, "nobody")
    assert files.client is None
    assert [problem.place.file for problem in problems] == ["clients/nobody/client.yaml"]


def test_field_notes_of_another_form(book: Book) -> None:
    """The practice says how its phones write; what is wrong across files stands under the file's own heading."""
    book.add(
        "practice.yaml",
        "field_notes:\n"
        "  columns: {day: Sample date, zone: Paddock, soil_state: Ground}\n"
        "  soil_state: {Damp: moist}\n"
        "  day_form: month-day-year\n",
    )
    header = "Sample date,farm,Paddock,protocol,top_cm,bottom_cm,cores,Ground,Battery\n"
    book.write("field_notes.csv", f"{header}2/20/2026,home,river-flat,topsoil,0,10,25,Damp,80\n")
    client, problems = book.client()
    assert problems == ()
    assert client is not None
    (note,) = client.field_notes
    assert (note.day, note.zone, note.soil_state) == (date(2026, 2, 20), "river-flat", "moist")
    book.edit("field_notes.csv", "river-flat", "river-flats")
    problem = book.only()
    assert (problem.code, problem.mend) == ("unknown-zone", "write river-flat")
    assert problem.place == Place("clients/anvil-creek/field_notes.csv", 2, 16, "Paddock")
