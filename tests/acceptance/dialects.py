"""Laboratories that write the same results in five ways, each with the file that says how it is read."""

from __future__ import annotations

import csv
import io
from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from openpyxl import Workbook

from soilrota.model.results import Result
from soilrota.quantities import convert, method

#: Units in which some of the laboratories report, instead of the glossary's.
OTHER_UNITS = {
    "organic-carbon.walkley-black": "g/kg",
    "conductivity.ec-1-5": "µS/cm",
    "potassium.exchangeable": "mg/kg",
    "phosphorus.colwell": "mg/kg P2O5",
    "potassium.colwell": "mg/100 g K2O",
    "organic-matter.loss-on-ignition": "g/kg",
}
Rows = list[list[str]]


@dataclass(frozen=True)
class Dialect:
    """A way of writing results.

    Attributes:
        name: id of the laboratory.
        ending: of its files.
        form: what the laboratory's file says of it, but for the columns.
        encode: rows of cells to bytes.
        decimal: decimal sign.
        day: form of days, as `strftime` reads it.
        other_units: whether it reports in other units than the glossary.
        lists: whether it writes one value a row.
    """

    name: str
    ending: str
    form: str
    encode: Callable[[Rows], bytes]
    decimal: str
    day: str
    other_units: bool = False
    lists: bool = False

    def laboratory(self, codes: Sequence[str]) -> str:
        """Return the file of the laboratory."""
        columns = "\n".join(
            f'      - {{heading: "{heading(code)}", analysis: {code}, unit: "{self.unit(code)}"}}' for code in codes
        )
        head = f"name: Laboratory {self.name}\ncountry: AU\nturnaround_working_days: 5\ncourier_days: 1\nforms:\n"
        return f"{head}  - name: only\n{self.form}    columns:\n{columns}\n"

    def unit(self, code: str) -> str:
        """Return the unit in which an analysis is reported."""
        known = method(*code.split("."))
        assert known is not None
        return OTHER_UNITS.get(code, known.unit) if self.other_units else known.unit

    def value(self, result: Result) -> str:
        """Return a value as the laboratory writes it."""
        code = f"{result.analyte}.{result.method}"
        number = convert(result.value, result.unit, self.unit(code), result.analyte)
        assert isinstance(number, float)
        return f"{result.qualifier}{number:.15g}".replace(".", self.decimal)

    def write(self, results: Iterable[Result]) -> bytes:
        """Return one report as the laboratory's file."""
        bags: defaultdict[str, list[Result]] = defaultdict(list)
        for result in results:
            bags[result.bag].append(result)
        codes = sorted({f"{one.analyte}.{one.method}" for some in bags.values() for one in some})
        return self.encode(self._list(bags) if self.lists else self._table(bags, codes))

    def _facts(self, result: Result) -> list[str]:
        """Return what stands before the values."""
        days = [result.sampled.strftime(self.day), result.reported.strftime(self.day)]
        return [result.bag, result.report, str(result.issue), *days, f"{result.top_cm:g}-{result.bottom_cm:g}"]

    def _table(self, bags: dict[str, list[Result]], codes: Sequence[str]) -> Rows:
        """Return one sample a row."""
        rows = [["Bag", "Report", "Issue", "Sampled", "Reported", "Depth", *map(heading, codes)]]
        for some in bags.values():
            values = {f"{one.analyte}.{one.method}": self.value(one) for one in some}
            rows.append([*self._facts(some[0]), *(values.get(code, "") for code in codes)])
        return rows

    def _list(self, bags: dict[str, list[Result]]) -> Rows:
        """Return one value a row, with its unit."""
        rows = [["Bag", "Report", "Issue", "Sampled", "Reported", "Depth", "Analysis", "Value", "Unit"]]
        for some in bags.values():
            for one in some:
                code = f"{one.analyte}.{one.method}"
                rows.append([*self._facts(one), heading(code), self.value(one), self.unit(code)])
        return rows


def heading(code: str) -> str:
    """Return the laboratory's name of an analysis."""
    return code.replace(".", " by ").replace("-", " ").capitalize()


def _text(rows: Rows, delimiter: str, encoding: str) -> bytes:
    """Return rows as delimited text."""
    text = io.StringIO(newline="")
    csv.writer(text, delimiter=delimiter).writerows(rows)
    return text.getvalue().encode(encoding)


def _workbook(rows: Rows) -> bytes:
    """Return rows as a sheet below merged rows of titles; values that are plain numbers are stored as numbers."""
    book = Workbook()
    sheet = book.active
    sheet.title = "Results"
    sheet.append(["The laboratory of a test"])
    sheet.merge_cells("A1:F1")
    sheet.append(["Report:", rows[1][1]])
    sheet.merge_cells("C2:F2")
    sheet.append([])
    facts = 6
    for number, row in enumerate(rows):
        plain = row if not number else [*row[:facts], *map(_number, row[facts:])]
        sheet.append([cell for place, cell in enumerate(plain) if place != 1])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _number(text: str) -> float | str:
    """Return the number of a cell where it is one."""
    return float(text) if text[:1].isdigit() else text


_FACTS = "    sample: Bag\n    issue: Issue\n    sampled: Sampled\n    reported: Reported\n    depth: Depth\n"
_LIST = "    shape: value-a-row\n    analysis: Analysis\n    value: Value\n    unit: Unit\n"
DIALECTS = (
    Dialect(
        "commas",
        "csv",
        f'    numbers: {{decimal: "."}}\n    report: Report\n{_FACTS}',
        lambda rows: _text(rows, ",", "utf-8"),
        ".",
        "%Y-%m-%d",
    ),
    Dialect(
        "semicolons",
        "csv",
        f'    numbers: {{decimal: ","}}\n    day_form: day-month-year\n    report: Report\n{_FACTS}',
        lambda rows: _text(rows, ";", "windows-1252"),
        ",",
        "%d.%m.%Y",
        other_units=True,
    ),
    Dialect(
        "wide-letters",
        "txt",
        f'    numbers: {{decimal: "."}}\n    day_form: month-day-year\n    report: Report\n{_FACTS}',
        lambda rows: _text(rows, "\t", "utf-16"),
        ".",
        "%m/%d/%Y",
    ),
    Dialect(
        "workbooks",
        "xlsx",
        f"    kind: xlsx\n    day_form: day-month-year\n    report: {{label: Report}}\n{_FACTS}",
        _workbook,
        ".",
        "%d/%m/%Y",
        other_units=True,
    ),
    Dialect(
        "lists",
        "csv",
        f'    numbers: {{decimal: "."}}\n    report: Report\n{_LIST}{_FACTS}',
        lambda rows: _text(rows, ",", "utf-8-sig"),
        ".",
        "%Y-%m-%d",
        other_units=True,
        lists=True,
    ),
)
