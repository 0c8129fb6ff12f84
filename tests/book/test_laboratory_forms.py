"""From a laboratory's file to the forms of its results."""

from __future__ import annotations

from pathlib import Path

from soilrota.book import load_shared
from soilrota.files.schemas import shipped_schemas
from soilrota.model.laboratory_files import FileKind, GridForm, RowShape, Spot
from soilrota.quantities import NumberForm
from soilrota.quantities.unit_texts import unit_table
from tests.book.small_book import Book

EXAMPLES = Path(__file__).resolve().parents[2] / "example_clients"
SMALLEST = """\
forms:
  - name: small
    sample: Bag
    columns:
      - {heading: pH, analysis: ph.water, unit: pH}
"""
FULL = """\
forms:
  - name: full
    kind: xlsx
    delimiter: ";"
    encoding: windows-1252
    sheet: Soil
    shape: value-a-row
    numbers: {decimal: ",", group: ".", nd: below limit}
    day_form: day-month-year
    sample: Bag
    report: {label: Report no.}
    reported: Out
    analysis: Test
    value: Found
    columns:
      - {heading: P, analysis: phosphorus.bray-1, unit: lb/ac, low: 2, high: 400, layer: acre-furrow-slice}
      - {heading: K, analysis: potassium.colwell, unit: mg/l, laboratory_density: 1.1}
    ignored: [Moisture]
"""
FILE = "laboratories/north-bench.yaml"


def test_what_may_be_left_out(book: Book) -> None:
    """A name, the bag's heading and one column are a form; a laboratory without forms has none."""
    shared, _ = book.shared()
    assert shared is not None
    assert shared.practice.laboratories["north-bench"].forms == ()
    book.add(FILE, SMALLEST)
    shared, problems = book.shared()
    assert shared is not None, problems
    (form,) = shared.practice.laboratories["north-bench"].forms
    assert (form.name, form.laboratory, form.kind, form.grid, form.shape) == (
        "small", "north-bench", None, GridForm(), RowShape.SAMPLE,
    )  # fmt: skip
    assert (form.numbers, form.nd, form.day_form) == (None, "", "year-month-day")
    assert (form.sample, form.report, form.value, form.ignored) == (Spot("Bag"), None, None, ())
    assert form.place.line == book.line(FILE, "name: small")


def test_everything_that_can_be_said(book: Book) -> None:
    """Each property comes through; units are held against what the column declares of the soil."""
    book.add(FILE, FULL)
    shared, problems = book.shared()
    assert shared is not None, [str(problem) for problem in problems]
    (form,) = shared.practice.laboratories["north-bench"].forms
    assert (form.kind, form.grid) == (FileKind.XLSX, GridForm(";", "windows-1252", "Soil"))
    assert (form.numbers, form.nd) == (NumberForm(",", ".", "below limit"), "below limit")
    assert (form.report, form.reported, form.value) == (Spot(label="Report no."), Spot("Out"), Spot("Found"))
    phosphorus, potassium = form.columns
    assert (phosphorus.code, phosphorus.low, phosphorus.high) == ("phosphorus.bray-1", 2, 400)
    assert phosphorus.soil.bulk_density is not None
    assert (potassium.soil.laboratory_density, potassium.soil.depth_cm) == (1.1, None)
    assert form.ignored == ("Moisture",)


def test_n_d_without_a_decimal_sign(book: Book) -> None:
    """What `n.d.` means may be declared alone."""
    book.add(FILE, SMALLEST + "    numbers: {nd: not measured}\n")
    shared, _ = book.shared()
    assert shared is not None
    (form,) = shared.practice.laboratories["north-bench"].forms
    assert (form.numbers, form.nd) == (None, "not measured")


def test_the_schema_knows_every_named_layer() -> None:
    """Layers that may be named are those of the table of units."""
    path = ("forms", 0, "columns", 0, "layer")
    assert shipped_schemas().at("laboratory.schema.json", path)["enum"] == list(unit_table()["conventions"])


def test_the_example_laboratories_declare_what_their_clients_need() -> None:
    """Every analysis that a client's results hold can be read by its laboratory; all shapes and kinds stand there."""
    shared, problems = load_shared(EXAMPLES)
    assert shared is not None
    assert problems == ()
    forms = [form for laboratory in shared.practice.laboratories.values() for form in laboratory.forms]
    assert {form.shape for form in forms} == set(RowShape)
    assert {form.kind for form in forms} >= set(FileKind)
    assert any(column.unit_row for form in forms for column in form.columns)
    assert {form.numbers.decimal for form in forms if form.numbers} == {".", ","}
    missing = set()
    for file in sorted((EXAMPLES / "records" / "results").rglob("*.csv")):
        for line in file.read_text(encoding="utf-8").splitlines()[1:]:
            cells = line.split(",")
            known = shared.practice.laboratories[cells[14]].forms
            if not any(column.code == f"{cells[9]}.{cells[10]}" for form in known for column in form.columns):
                missing.add((cells[14], cells[9], cells[10]))
    assert missing == set()
