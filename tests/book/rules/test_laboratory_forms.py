"""Forms of laboratories that cannot be read, or could be read in two ways."""

from __future__ import annotations

import pytest

from tests.book.small_book import Book

FILE = "laboratories/north-bench.yaml"
WIDE = """\
forms:
  - name: wide
    sample: Bag
    report: Report
    columns:
      - {heading: pH, analysis: ph.water, unit: pH}
      - {heading: P, analysis: phosphorus.olsen, unit: mg/kg}
    ignored: [Grower]
"""
LONG = """\
forms:
  - name: long
    shape: value-a-row
    sample: Bag
    analysis: Test
    value: Found
    columns:
      - {heading: pH, analysis: ph.water, unit: pH}
      - {heading: P, analysis: phosphorus.olsen, unit: mg/kg}
    ignored: [Moisture]
"""


@pytest.mark.parametrize(
    ("edit", "code", "line", "said"),
    [
        (("ph.water", "ph.watr"), "unknown-analysis", "ph.watr", "write ph.water"),
        (("unit: mg/kg", "unit: mg/l"), "unit-refused", "mg/l", "density"),
        (("unit: mg/kg", "unit: mg/kg K2O"), "unit-refused", "K2O", "K2O"),
        (("unit: mg/kg", "unit: furlongs"), "unit-refused", "furlongs", "'P'"),
        ((", unit: mg/kg", ""), "no-unit", "phosphorus.olsen", "unit: mg/kg"),
        (("unit: mg/kg", "unit: mg/kg, unit_row: true"), "unit-twice", "unit_row", "unit_row"),
        (("heading: P,", "heading: ' PH ',"), "mapped-twice", "' PH '", "stands already"),
        (("heading: P,", "heading: report,"), "mapped-twice", "heading: report", "stands already"),
        (("[Grower]", "[P]"), "mapped-twice", "ignored", "stands already"),
        (("    ignored", "    value: Found\n    ignored"), "not-together", "value: Found", "shape: value-a-row"),
        (("    ignored", "    shape: value-a-row\n    value: Found\n    ignored"), "missing-key", "shape", "analysis"),
        (("    ignored", "    numbers: {group: ' '}\n    ignored"), "missing-key", "group", "decimal sign"),
        (("    ignored", "    numbers: {decimal: ',', group: ','}\n    ignored"), "signs-alike", "group", "different"),
        (("unit: mg/kg", "unit: mg/kg, low: 5, high: 2"), "limits-swapped", "low: 5", "swap"),
        (("    ignored", "    encoding: utf-9\n    ignored"), "unknown-encoding", "utf-9", "windows-1252"),
        (("    ignored", "    encoding: hex\n    ignored"), "unknown-encoding", "hex", "windows-1252"),
    ],
)
def test_a_form_that_is_not_sound(book: Book, edit: tuple[str, str], code: str, line: str, said: str) -> None:
    """Each fault is one problem at its own line, with what to do."""
    book.add(FILE, WIDE)
    assert book.shared_problems() == ()
    book.edit(FILE, *edit)
    problem = book.only(shared=True)
    assert (problem.code, problem.place.file, problem.place.line) == (code, FILE, book.line(FILE, line))
    assert said in f"{problem.found} {problem.expected} {problem.mend}"


def test_names_of_forms(book: Book) -> None:
    """Two forms of a laboratory have two names."""
    book.add(FILE, WIDE + LONG.replace("forms:\n", "").replace("name: long", "name: wide"))
    problem = book.only(shared=True)
    assert problem.code == "repeated-id"


def test_a_list_of_values(book: Book) -> None:
    """Names are no headings: they may be written alike; an ignored word is neither."""
    book.add(FILE, LONG.replace("heading: P,", "heading: Found,"))
    assert book.shared_problems() == ()
    book.edit(FILE, "[Moisture]", "[Found]")
    assert {problem.code for problem in book.shared_problems()} == {"mapped-twice"}
    book.edit(FILE, "[Found]", "[Moisture]")
    book.edit(FILE, ", unit: mg/kg", "")
    assert book.only(shared=True).code == "no-unit"
    book.edit(FILE, "    value: Found\n", "    value: Found\n    unit: In\n")
    assert book.shared_problems() == ()
    book.edit(FILE, "analysis: phosphorus.olsen", "analysis: phosphorus.olsen, unit_row: true")
    assert book.only(shared=True).code == "unit-twice"
