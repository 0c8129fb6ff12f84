"""From a laboratory's cell to a value in the unit of the glossary, or the reason why there is none."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import cast

from soilrota.model.intake import ReportedValue
from soilrota.model.laboratory_files import AnalysisColumn, LaboratoryForm
from soilrota.problems import Place, Problem, error
from soilrota.quantities import (
    NoNumber,
    NumberForm,
    Refusal,
    Unit,
    Value,
    convert,
    factor,
    find_form,
    method,
    read_unit,
    read_value,
)
from soilrota.quantities.values import NdMeaning

_DIGIT = re.compile("[0-9]")
#: Cells without any of these read alike in every form.
_TELLS = re.compile(r"[.,'’]|[0-9]\s+[0-9]")
_THREE_DECIMALS = re.compile(r"-?[0-9]+\.[0-9]{3}")
_PLAIN = re.compile("[0-9][0-9.,'’ ]{0,30}")
_LEADING_DIGIT = re.compile("(?<![0-9])[1-9]")
_FURTHER_DIGIT = re.compile("(?<=[0-9])[0-9]")
#: How a sheet's own numbers are written.
_STORED = NumberForm(".")


@dataclass(frozen=True, slots=True)
class Numbers:
    """How the numbers of a column are written.

    Attributes:
        form: the form; None where neither a person nor the column says so.
        nd: what `n.d.` means; None where not declared.
    """

    form: NumberForm | None
    nd: str | None

    def form_of(self, text: str) -> NumberForm | None:
        """Return the form to read a cell by; a cell without digits reads alike in each."""
        if self.form is not None or self.nd is None or _DIGIT.search(text):
            return self.form
        return NumberForm(".", nd=_meaning(self.nd))


@dataclass(frozen=True, slots=True)
class StatedUnit:
    """A unit, and the text by which it was stated."""

    unit: Unit
    text: str


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell of a value: its text, whether a sheet stores it as a number, and where it stands."""

    text: str
    is_number: bool
    place: Place


def numbers_of(form: LaboratoryForm, cells: Iterable[str]) -> Numbers:
    """Return how the numbers of a column are written: as declared, or else in the one form that reads all its cells.

    Args:
        form: the laboratory's form.
        cells: the texts of the column, without those that a sheet stores as numbers.
    """
    nd = form.nd or None
    if form.numbers is not None:
        return Numbers(form.numbers, nd)
    # Which forms read a plain number hangs on how many digits stand where, and on noughts that lead: one cell of each
    # shape is enough, and a column of ten thousand cells has a few dozen.
    by_shape = {_shape(cell): cell for cell in cells if _TELLS.search(cell)}
    found = find_form(by_shape.values(), _meaning(nd))
    return Numbers(None if isinstance(found, Refusal) else found, nd)


def _shape(cell: str) -> str:
    """Return a plain number with every digit a one but noughts that lead; any other cell as it is."""
    return _FURTHER_DIGIT.sub("1", _LEADING_DIGIT.sub("1", cell)) if _PLAIN.fullmatch(cell) else cell


def _meaning(nd: str | None) -> NdMeaning | None:
    """Return the declared meaning of `n.d.` under its type; the schema lets no other word through."""
    return cast("NdMeaning | None", nd)


def stated_unit(column: AnalysisColumn, text: str, place: Place) -> StatedUnit | Problem:
    """Return the unit of a value, or why it cannot be used.

    Args:
        column: what the column or the name means.
        text: the unit as it stands in the file; empty where it does not.
        place: where it stands, or should.
    """
    named = f"'{column.heading}'"
    said = text if _says_something(text) else column.unit
    if not said:
        mend = "write the unit in its cell, or declare it in the laboratory's file"
        return error("no-unit", place, f"no unit for {named}", "the unit in which it was reported", mend)
    found = read_unit(said)
    if isinstance(found, Refusal):
        return error("unit-refused", place, f"{named}: {found.found}", found.expected, found.mend)
    if column.unit and said != column.unit:
        declared = read_unit(column.unit)
        if not isinstance(declared, Refusal) and not _agree(found, declared, column.analyte):
            return _other_unit(named, said, column.unit, place)
    known = method(column.analyte, column.method)
    if known is None:
        mend = f"correct the analysis in the laboratory's file at {column.place}"
        return error("unknown-analysis", place, f"{named} as {column.code}", "an analysis of the glossary", mend)
    way = factor(found, known.unit, column.analyte, soil=column.soil)
    if isinstance(way, Refusal):
        return error("unit-refused", place, f"{named}: {way.found}", way.expected, way.mend)
    return StatedUnit(found, said)


def _says_something(text: str) -> bool:
    """Return whether a cell of a unit is more than a blank or a dash."""
    return bool(text.strip(" -–—"))


def _agree(found: Unit, declared: Unit, analyte: str) -> bool:
    """Return whether two units are one; where a text names no form, that of the declared unit is meant."""
    return factor(found if found.form else replace(found, form=declared.form), declared, analyte) == 1.0


def _other_unit(named: str, said: str, declared: str, place: Place) -> Problem:
    """Return that a file states another unit than was declared."""
    mend = "ask the laboratory; then correct the cell, or the unit in the laboratory's file"
    return error("unit-differs", place, f"{named} in '{said[:60]}'", f"{declared}, as declared", mend)


def is_not_measured(text: str) -> bool:
    """Return whether a cell says that nothing was measured, whatever the form: a blank, a dash, a word for it."""
    if not text:
        return True
    if _DIGIT.search(text):
        return False
    found = read_value(text)
    return isinstance(found, NoNumber) and found.meaning == "not measured"


def read_measured(
    cell: Cell, column: AnalysisColumn, unit: StatedUnit, numbers: Numbers
) -> ReportedValue | Problem | None:
    """Return the value of a cell in the unit of the glossary; None where nothing was measured; a problem otherwise.

    Args:
        cell: the cell.
        column: what it means.
        unit: its unit.
        numbers: how numbers are written there.
    """
    named = f"'{column.heading}'"
    found = read_value(cell.text, _STORED if cell.is_number else numbers.form_of(cell.text))
    if isinstance(found, Refusal):
        return error("cell-refused", cell.place, f"{named}: {found.found}", found.expected, found.mend)
    known = method(column.analyte, column.method)
    if known is None or (isinstance(found, NoNumber) and found.meaning == "not measured"):
        return None
    by = unit.unit
    if isinstance(found, NoNumber):
        limit = column.low if found.meaning == "below limit" else column.high
        if limit is None:
            return _no_limit(cell, named, found)
        found = Value(limit, "<" if found.meaning == "below limit" else ">")
        by = _unit_of_limits(column, known.unit)
    elif found.unit is not None and not _agree(found.unit, by, column.analyte):
        return _other_unit(named, cell.text, unit.text, cell.place)
    number = convert(found.number, by, known.unit, column.analyte, soil=column.soil)
    if isinstance(number, Refusal):
        return error("unit-refused", cell.place, f"{named}: {number.found}", number.expected, number.mend)
    text = " ".join(cell.text.split())
    as_reported = text if found.unit is not None else f"{text} {unit.text.strip()}"
    return ReportedValue(column.analyte, column.method, found.qualifier, number, known.unit, as_reported, cell.place)


def _unit_of_limits(column: AnalysisColumn, own: str) -> Unit:
    """Return the unit of a column's limits: its declared unit, or the glossary's where the unit stands in the file."""
    found = read_unit(column.unit or own)
    return Unit(own) if isinstance(found, Refusal) else found


def _no_limit(cell: Cell, named: str, found: NoNumber) -> Problem:
    """Return that a word stands for a limit that nobody gave."""
    key = "low" if found.meaning == "below limit" else "high"
    sign = "<" if key == "low" else ">"
    mend = f"declare '{key}' for {named} in the laboratory's file, or write the limit as in {sign}0.5"
    return error("no-limit", cell.place, f"{named}: '{cell.text.strip()[:60]}': {found.meaning}", "the limit", mend)


def kept_text(text: str, form: LaboratoryForm, *, is_number: bool) -> str:
    """Return a cell as it is kept for a CSV file: one that a sheet stores as a number stays that number there.

    With a declared decimal sign it is written so; without one, three decimals get a nought behind them, because three
    digits behind a point may be a group.

    Args:
        text: the cell.
        form: the laboratory's form.
        is_number: whether a sheet stores it as a number.
    """
    if not is_number:
        return text
    if form.numbers is not None:
        return text.replace(".", form.numbers.decimal)
    return f"{text}0" if _THREE_DECIMALS.fullmatch(text) else text
