"""Cells of laboratory files: a table of awkward ones, and properties."""

from __future__ import annotations

import pytest
from babel.numbers import format_decimal
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.quantities import Limits, NoNumber, NumberForm, Refusal, Unit, Value, find_form, read_value
from soilrota.quantities.refusals import shown
from soilrota.quantities.values import _all_forms, _content, _words

POINT, COMMA = NumberForm("."), NumberForm(",")
ENGLISH, GERMAN = NumberForm(".", ","), NumberForm(",", ".")
SPACED, SWISS = NumberForm(",", " "), NumberForm(".", "'")
NONE, BELOW, ABOVE = NoNumber("not measured"), NoNumber("below limit"), NoNumber("above limit")
MG = Unit("mg/kg")

#: Cell, declared form, what it means; a text is the beginning of the reason why it is refused.
CELLS: list[tuple[str, NumberForm | None, Value | NoNumber | str]] = [
    # Plain numbers, nothing declared.
    ("12.5", None, Value(12.5)),
    ("12,5", None, Value(12.5)),
    ("0", None, Value(0.0)),
    ("007", None, Value(7.0)),
    ("  6.1\t", None, Value(6.1)),
    ("\ufeff6.1", None, Value(6.1)),
    ("6.1\u200b", None, Value(6.1)),
    (".5", None, Value(0.5)),
    (",5", None, Value(0.5)),
    ("0.125", None, Value(0.125)),
    ("0,125", None, Value(0.125)),
    ("1234,567", None, Value(1234.567)),
    ("1234.567", None, Value(1234.567)),
    ("1.234,5", None, Value(1234.5)),
    ("1,234.5", None, Value(1234.5)),
    ("1,234,567", None, Value(1234567.0)),
    ("1.234.567", None, Value(1234567.0)),
    ("1'234.5", None, Value(1234.5)),
    ("1’234,5", None, Value(1234.5)),
    ("1\u202f234", None, Value(1234.0)),
    ("1\u00a0234,5", None, Value(1234.5)),
    ("1\u2009234.5", None, Value(1234.5)),
    ("-0.3", None, Value(-0.3)),
    ("\u22120.3", None, Value(-0.3)),
    ("–0,3", None, Value(-0.3)),
    ("+3.2", None, Value(3.2)),
    ("-0", None, Value(0.0)),
    # Two readings: refused until the form is declared.
    ("1,234", None, "either 1.234 or 1234"),
    ("1.234", None, "either 1.234 or 1234"),
    ("1,000", None, "either 1 or 1000"),
    ("12.345", None, "either 12.345 or 12345"),
    ("-1,234", None, "either -1234 or -1.234"),
    ("<1,234", None, "either 1.234 or 1234"),
    ("1,234e3", None, "either 1234 or 1234000"),
    ("1 234", None, "not written as a number is"),
    ("1,234", POINT, "another form"),
    ("1,234", COMMA, Value(1.234)),
    ("1,234", ENGLISH, Value(1234.0)),
    ("1,234", GERMAN, Value(1.234)),
    ("1.234", POINT, Value(1.234)),
    ("1.234", COMMA, "another form"),
    ("1.234", ENGLISH, Value(1.234)),
    ("1.234", GERMAN, Value(1234.0)),
    ("1 234", SPACED, Value(1234.0)),
    ("1\u202f234,5", SPACED, Value(1234.5)),
    ("1 234,5", GERMAN, "another form"),
    ("1'234.5", SWISS, Value(1234.5)),
    ("1’234’567.5", SWISS, Value(1234567.5)),
    ("1234.5", ENGLISH, Value(1234.5)),
    ("1,234.5", GERMAN, "another form"),
    ("1.234,5", ENGLISH, "another form"),
    ("12.5", COMMA, "another form"),
    # No group of three, no number.
    ("1,23,456", ENGLISH, "another form"),
    ("1,2345", ENGLISH, "another form"),
    ("0,123", ENGLISH, "another form"),
    ("12,34.5", None, "not written as a number is"),
    ("1.2.3", None, "a date"),
    ("1..2", None, "not written as a number is"),
    ("1,,2", None, "not written as a number is"),
    ("5.", None, "not written as a number is"),
    ("5,", None, "not written as a number is"),
    ("12 , 5", None, "not written as a number is"),
    # Powers of ten.
    ("1.2e3", None, Value(1200.0)),
    ("1.2E+03", None, Value(1200.0)),
    ("1,2E-03", None, Value(0.0012)),
    ("1.2×10^3", None, Value(1200.0)),
    ("1.2 x 10^3", None, Value(1200.0)),
    ("1.2·10³", None, Value(1200.0)),
    ("1.2 × 10⁻³", None, Value(0.0012)),
    ("1.2*10^(-3)", None, Value(0.0012)),
    ("1.2e\u22123", None, Value(0.0012)),
    ("<1e-3 mg/kg", None, Value(0.001, "<", MG)),
    ("1e400", None, "too large"),
    ("1e3.5", None, "'e3.5' behind a number"),
    ("1.2E", None, "'E' behind a number"),
    ("10³", None, "'^3' behind a number"),
    # Censored values.
    ("<0.5", None, Value(0.5, "<")),
    ("< 0,5", None, Value(0.5, "<")),
    ("≤0.5", None, Value(0.5, "<")),
    ("<=0.5", None, Value(0.5, "<")),
    ("> 400", None, Value(400.0, ">")),
    ("≥ 400", None, Value(400.0, ">")),
    (">=400", None, Value(400.0, ">")),
    ("&lt;0.5", None, Value(0.5, "<")),
    ("less than 0.5", None, Value(0.5, "<")),
    ("Above 400", None, Value(400.0, ">")),
    ("<\u202f0.5", None, Value(0.5, "<")),
    ("< 0,5 mg/kg", COMMA, Value(0.5, "<", MG)),
    ("> 1 234,5", SPACED, Value(1234.5, ">")),
    ("<0", None, "below nothing"),
    ("<-1", None, "below nothing"),
    ("<<0.5", None, "no number"),
    ("<>5", None, "no number"),
    ("0.5<", None, "'<' behind a number"),
    ("<", None, "no number"),
    ("~5", None, "no number"),
    ("ca. 5", None, "no number"),
    # Units behind the number.
    ("12.5 mg/kg", None, Value(12.5, "", MG)),
    ("12.5mg/kg", None, Value(12.5, "", MG)),
    ("12.5\u00a0mg\u00a0kg⁻¹", None, Value(12.5, "", MG)),
    ("2,1 %", None, Value(2.1, "", Unit("%"))),
    ("2.1%", None, Value(2.1, "", Unit("%"))),
    ("0.15 dS/m", None, Value(0.15, "", Unit("dS/m"))),
    ("24 mg P2O5/100 g", None, Value(24.0, "", Unit("mg/100g", "P2O5"))),
    ("3 cmol(+)/kg", None, Value(3.0, "", Unit("cmol(+)/kg"))),
    ("1,234 mg/kg", None, "either 1.234 or 1234"),
    ("10 ppm", None, Value(10.0, "", Unit("ppm"))),
    ("12.5 furlongs", None, "'furlongs' behind a number"),
    ("3.2*", None, "'*' behind a number"),
    ("3.2 H", None, "'H' behind a number"),
    ("3.2 ± 0.1", None, "'± 0.1' behind a number"),
    ("(3.2)", None, "no number"),
    ("3-4", None, "'-4' behind a number"),
    ("3–4", None, "'-4' behind a number"),
    ("1/2", None, "'/2' behind a number"),
    ("½", None, "no number"),
    ("1O.5", None, "'O.5' behind a number"),
    ("0x1F", None, "'x1F' behind a number"),
    ("1_000", None, "'_000' behind a number"),
    ("\u0661\u0662", None, "no number"),
    # Words and signs.
    ("", None, NONE),
    (" \u00a0 ", None, NONE),
    ("–", None, NONE),
    ("-", None, NONE),
    ("\u2212", None, NONE),
    ("—", None, NONE),
    ("n/a", None, NONE),
    ("N.A.", None, NONE),
    ("Not analysed", None, NONE),
    ("not determined", None, NONE),
    ("insufficient sample", None, NONE),
    ("<LOD", None, BELOW),
    ("< LOQ", None, BELOW),
    ("BDL", None, BELOW),
    ("not  detected", None, BELOW),
    ("Trace", None, BELOW),
    ("over range", None, ABOVE),
    ("n.d.", None, "either not detected or not determined"),
    ("nd", POINT, "either not detected or not determined"),
    ("ND", NumberForm(".", nd="not measured"), NONE),
    ("n.d.", NumberForm(".", nd="below limit"), BELOW),
    (".", None, "no number"),
    (",", None, "no number"),
    ("?", None, "no number"),
    ("x", None, "no number"),
    ("#N/A", None, "a spreadsheet's error"),
    ("#DIV/0!", None, "a spreadsheet's error"),
    ("#####", None, "a spreadsheet's error"),
    ("NaN", None, "a program's word"),
    ("inf", None, "a program's word"),
    ("-inf", None, "a program's word"),
    ("TRUE", None, "true or false"),
    ("pending", None, "a result that is still to come"),
    ("5-Mar", None, "a date"),
    ("Mar-05", None, "a date"),
    ("12/03/2027", None, "a date"),
    ("2027-03-12", None, "a date"),
]


@pytest.mark.parametrize(("text", "form", "expected"), CELLS)
def test_awkward_cells(text: str, form: NumberForm | None, expected: Value | NoNumber | str) -> None:
    """Each cell has its one meaning, or is refused for the reason in the table."""
    found = read_value(text, form)
    if isinstance(expected, str):
        assert isinstance(found, Refusal)
        assert found.found.startswith(f"{shown(text)}: {expected}")
        assert found.expected
        assert found.mend
    else:
        assert found == expected


def test_limits_make_words_values() -> None:
    """A word for below the limit is a censored value where the file gives the limit, and only at that end."""
    limits = Limits(low=0.5, high=400.0)
    assert read_value("<LOD", limits=limits) == Value(0.5, "<")
    assert read_value("n.d.", NumberForm(".", nd="below limit"), limits=limits) == Value(0.5, "<")
    assert read_value("n.d.", NumberForm(".", nd="not measured"), limits=limits) == NONE
    assert read_value("over range", limits=limits) == Value(400.0, ">")
    assert read_value("over range", limits=Limits(low=0.5)) == ABOVE
    assert read_value("–", limits=limits) == NONE


def test_one_sign_is_not_two_things() -> None:
    """A form with one sign for both is a fault of the program."""
    with pytest.raises(ValueError, match="both the decimal and the group sign"):
        NumberForm(",", ",")


COLUMNS: list[tuple[list[str], NumberForm | str]] = [
    (["1.234", "12.5"], POINT),
    (["1,234", "12,5"], COMMA),
    (["1.234", "12,5"], GERMAN),
    (["1,234", "0.5", "", "n.d."], ENGLISH),
    (["1 234", "12,5"], SPACED),
    (["1'234", "0.5"], SWISS),
    (["<0,5", "> 400", "–"], COMMA),
    (["1,234,567"], ENGLISH),
    (["0,5 mg/kg", "see note"], COMMA),
    (["1.2e3"], POINT),
    (["1,234", "2,345"], "a column that can be read with either decimal sign"),
    (["1,234", "1.234"], "a column that can be read with either decimal sign"),
    (["1", "20", "–"], "a column without a decimal sign"),
    ([], "a column without a decimal sign"),
    (["n.d.", "see note."], "a column without a decimal sign"),
    (["12.5", "12,5"], "a column with '12.5' and '12,5'"),
    (["1.234,5", "1,234.5"], "a column with '1.234,5' and '1,234.5'"),
    (["1,234", "1'234", "0.5"], "a column with '1,234' and '1'234' and '0.5'"),
]


@pytest.mark.parametrize(("cells", "expected"), COLUMNS)
def test_the_form_of_a_column(cells: list[str], expected: NumberForm | str) -> None:
    """A column's form is what all its numbers can have; without evidence, or against it, there is none."""
    found = find_form(cells)
    if isinstance(expected, str):
        assert isinstance(found, Refusal)
        assert found.found == expected
    else:
        assert found == expected


def test_a_column_keeps_what_nd_means() -> None:
    """What was declared of `n.d.` goes into the form that is found."""
    assert find_form(["0.5", "n.d."], nd="below limit") == NumberForm(".", nd="below limit")


def _written(number: int, decimals: int, form: NumberForm) -> str:
    """Return a number of so many decimals as a form writes it, by Python's own grouping."""
    text = f"{number / 10**decimals:,.{decimals}f}"
    return text.translate(str.maketrans({",": form.group, ".": form.decimal}))


FORMS = st.sampled_from(_all_forms())


@given(st.integers(-(10**9), 10**9), st.integers(0, 4), FORMS, st.sampled_from(["", "<", ">", "≤ ", "> "]))
def test_what_a_form_writes_it_reads(number: int, decimals: int, form: NumberForm, sign: str) -> None:
    """A number that a form writes is read as the same number, with its qualifier."""
    found = read_value(sign + _written(number, decimals, form), form)
    if sign.strip() in {"<", "≤"} and number <= 0:
        assert isinstance(found, Refusal)
    else:
        assert isinstance(found, Value)
        assert found.number == pytest.approx(number / 10**decimals, rel=1e-12)
        assert found.qualifier == {"": "", "<": "<", "≤": "<", ">": ">"}[sign.strip()]


LOCALES = {"en": ENGLISH, "de": GERMAN, "fr": SPACED, "de_CH": SWISS, "sv": SPACED, "es_MX": ENGLISH, "pt_BR": GERMAN}


@given(st.integers(-(10**9), 10**9), st.sampled_from(sorted(LOCALES)))
@settings(deadline=None)
def test_numbers_of_many_languages(number: int, locale: str) -> None:
    """What CLDR writes for a language, with its own spaces, apostrophes and minus, is read by the declared form."""
    text = format_decimal(number / 1000, format="#,##0.###", locale=locale)
    for found in (read_value(text, LOCALES[locale]), read_value(f"{text}\u00a0mg/kg", LOCALES[locale])):
        assert isinstance(found, Value)
        assert found.number == pytest.approx(number / 1000, rel=1e-12)


@given(st.integers(0, 10**9), st.integers(0, 4), FORMS)
def test_undeclared_is_right_or_refused(number: int, decimals: int, form: NumberForm) -> None:
    """Without a declared form a number is never read as another one than was written."""
    found = read_value(_written(number, decimals, form))
    assert isinstance(found, Refusal) or found == Value(pytest.approx(number / 10**decimals, rel=1e-12))


@given(st.lists(st.tuples(st.integers(0, 10**7), st.integers(0, 3)), max_size=6), FORMS)
def test_a_column_is_right_or_refused(numbers: list[tuple[int, int]], form: NumberForm) -> None:
    """The form that a column shows reads every cell as it was written; or the column is refused."""
    cells = [_written(number, decimals, form) for number, decimals in numbers]
    found = find_form(cells)
    if isinstance(found, NumberForm):
        read = [read_value(cell, found) for cell in cells]
        assert read == [Value(pytest.approx(number / 10**decimals, rel=1e-12)) for number, decimals in numbers]


@given(st.text(max_size=20) | st.text("0123456789.,'<>-eE x^%/ \u2212\u202f", max_size=12), FORMS | st.none())
def test_any_text_is_read_or_refused(text: str, form: NumberForm | None) -> None:
    """No text makes a fault, and none is read as a number without a digit."""
    found = read_value(text, form)
    assert isinstance(found, Value | NoNumber | Refusal)
    if isinstance(found, Value):
        assert any(digit in text for digit in "0123456789")


def test_no_word_has_two_meanings() -> None:
    """Every word of the table stands in one list."""
    words = [word for part in ("words", "refused") for words in _content()[part].values() for word in words]
    assert len(set(words)) == len(words)
    assert set(_words().values()) == {"not measured", "below limit", "above limit", "nd"}
