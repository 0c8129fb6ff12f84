"""From bytes to rows: which forms are tried, what a form declares of the cells, reports that have no number."""

from __future__ import annotations

from pathlib import Path

import pytest

from soilrota.batch.intake_reading import forms_of, read_laboratory_file, with_reports
from soilrota.batch.reading import read_shared
from soilrota.model.intake import LaboratoryFile
from soilrota.model.laboratory_files import LaboratoryForm
from soilrota.problems import Problem
from tests.acceptance.intake_book import add_laboratory, row, table
from tests.acceptance.small_book import edit
from tests.results.intake_worlds import row as reported_row


def _forms(book: Path, wanted: str = "") -> tuple[tuple[LaboratoryForm, ...], tuple[Problem, ...]]:
    """Return the forms of a book's laboratories."""
    shared, problems = read_shared(book)
    assert shared is not None, problems
    return forms_of(shared.practice.laboratories, wanted, "inbox/a.csv")


def _read(book: Path, content: bytes) -> tuple[LaboratoryFile | None, tuple[str, ...]]:
    """Return what is read of a file, or the codes of the reasons why not."""
    path = book / "a.csv"
    path.write_bytes(content)
    read, problems = read_laboratory_file(path, "inbox/a.csv", _forms(book)[0])
    return (None if read is None else read[1]), tuple(problem.code for problem in problems)


def test_the_forms_of_the_folder_s_laboratory_or_of_all(book: Path) -> None:
    """A folder that names no laboratory, and a book without a form, say what to do."""
    assert [problem.code for problem in _forms(book)[1]] == ["no-forms"]
    add_laboratory(book)
    add_laboratory(book, "other")
    assert [form.laboratory for form in _forms(book)[0]] == ["bench", "other"]
    assert [form.laboratory for form in _forms(book, "other")[0]] == ["other"]
    ((problem,), forms) = _forms(book, "nobody")[1], _forms(book, "nobody")[0]
    assert (problem.code, problem.expected, forms) == ("unknown-laboratory", "one of bench, other", ())


@pytest.mark.parametrize("encoding", ["windows-1252", "utf-8", "utf-16"])
def test_what_the_form_declares_of_the_cells(book: Path, encoding: str) -> None:
    """A declared encoding is used where the file has no mark of its own; what is not in it is a reason."""
    add_laboratory(book)
    edit(book / "laboratories" / "bench.yaml", "    numbers:", f"    encoding: {encoding}\n    numbers:")
    text = table(row("A-µ")).decode()
    file, reasons = _read(book, text.encode(encoding))
    assert reasons == ()
    assert file is not None
    assert [one.sample for one in file.rows] == ["A-µ"]


def test_a_file_that_is_not_in_the_encoding_that_was_declared(book: Path) -> None:
    """The row whose cell is no text in it is set aside."""
    add_laboratory(book)
    edit(book / "laboratories" / "bench.yaml", "    numbers:", "    encoding: utf-8\n    numbers:")
    file, reasons = _read(book, table(row("A-µ"), row("A2")).decode().encode("windows-1252"))
    assert reasons == ()
    assert file is not None
    assert [one.sample for one in file.rows] == ["A2"]
    assert [[reason.code for reason in one.reasons] for one in file.set_aside] == [["not-in-encoding"]]


def test_a_delimiter_that_only_the_form_tells(book: Path) -> None:
    """Cells that cannot be told apart are read by the form that declares how."""
    add_laboratory(book)
    path = book / "laboratories" / "bench.yaml"
    edit(path, "heading: P,", 'heading: "P,Colwell",')
    content = b"Bag;P,Colwell\nA1;30,5\nA2;31,5\n"
    assert _read(book, content) == (None, ("delimiter-not-told",))
    edit(path, '    numbers: {decimal: "."}', '    delimiter: ";"\n    numbers: {decimal: ","}')
    file, reasons = _read(book, content)
    assert reasons == ()
    assert file is not None
    assert [one.values[0].value for one in file.rows] == [30.5, 31.5]


def test_reports_without_a_number_are_named_by_their_file(book: Path) -> None:
    """A row that comes back mended keeps the name of the file that it came in first; a number that is there stands."""
    add_laboratory(book)
    (numbered,) = _forms(book)[0]
    edit(book / "laboratories" / "bench.yaml", "    report: Report\n", "")
    (form,) = _forms(book)[0]
    rows = (
        reported_row("A1", report=""),
        reported_row("A2", report="", origin="0123456789ab:3"),
        reported_row("A3", report="R9"),
    )
    names = {"0123456789ab": "bench/first.csv"}
    assert [one.report for one in with_reports(rows, form, names, "bench/second.csv")] == ["second", "first", "R9"]
    assert with_reports(rows, numbered, names, "bench/second.csv") == rows
