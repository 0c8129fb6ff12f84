"""`results.xlsx`: the results of a client for those who work in a spreadsheet.

It speaks the client's language. Sheets: *Bags*, one row a bag of a report, its analyses beside one another with their
units in the headings; *Values*, one row a value with all that is known of it; *About*, how to read both. A value that
the laboratory gave as below or above its range stands as text, `<0.5`, so that nobody reckons with it unawares. Every
text is written as text: nothing in the file is a formula. The same results and the same day give the same bytes.
"""

from __future__ import annotations

import io
from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import date, datetime
from typing import TYPE_CHECKING, Any

from soilrota.documents.dates import digits, long_day
from soilrota.documents.results_data import ResultsData, ResultValue
from soilrota.documents.results_table import COLUMNS
from soilrota.language import marked, say, say_as, speaking, spoken

if TYPE_CHECKING:
    from xlsxwriter.format import Format
    from xlsxwriter.worksheet import Worksheet

_INK, _HEAD, _LINE = "#26332C", "#E9EDE3", "#B9C2B6"
_NARROW, _WIDE = 9, 46
#: The most that a cell of this format holds [-].
_LONGEST = 32_767
_BAG_COLUMNS = (
    marked("Farm"),
    marked("Zone"),
    marked("Protocol"),
    marked("Bag"),
    marked("From [cm]"),
    marked("To [cm]"),
    marked("Sampled"),
    marked("Reported"),
    marked("Laboratory"),
    marked("Report"),
)
#: Headings of the values, by the columns of the table.
_VALUE_COLUMNS = {
    "farm": marked("Farm"),
    "farm_name": marked("Farm name"),
    "zone": marked("Zone"),
    "zone_name": marked("Zone name"),
    "protocol": marked("Protocol"),
    "protocol_name": marked("Protocol name"),
    "bag": marked("Bag"),
    "top_cm": marked("From [cm]"),
    "bottom_cm": marked("To [cm]"),
    "sampled": marked("Sampled"),
    "received": marked("Received"),
    "reported": marked("Reported"),
    "laboratory": marked("Laboratory"),
    "report": marked("Report"),
    "issue": marked("Issue"),
    "analysis": marked("Code"),
    "name": marked("Analysis"),
    "qualifier": marked("Qualifier"),
    "value": marked("Value"),
    "unit": marked("Unit"),
    "printed": marked("Printed"),
    "as_reported": marked("As reported"),
    "findings": marked("Findings"),
    "corrections": marked("Corrections"),
}
_NO_UNIT = ("pH", "index")
_DAY_FORM = "yyyy-mm-dd"
#: Control characters that XML cannot carry are shown as the sign for what cannot be shown.
_UNSHOWN = dict.fromkeys((*range(9), 11, 12, *range(14, 32), 0xFFFE, 0xFFFF), "\ufffd")
#: What a cell holds, and the form of its number; an empty form for text.
_Written = tuple[str | float | int | date | None, str]


def results_workbook(data: ResultsData, day: date) -> bytes:
    """Return the workbook; `day` is the document's date."""
    with speaking(data.language):
        return _workbook(data, day)


def _workbook(data: ResultsData, day: date) -> bytes:
    """Return the workbook in the language that is spoken."""
    from xlsxwriter import Workbook  # noqa: PLC0415 - loaded where a workbook is made

    packed = io.BytesIO()
    book = Workbook(packed, {"in_memory": True})
    book.set_properties(
        {
            "title": _shown(say("Results of {client}", client=data.client)),
            "author": _shown(data.practice),
            "created": datetime(day.year, day.month, day.day),  # noqa: DTZ001 - the format knows no time zone
        }
    )
    forms = _Forms(book)
    headings, rows = _bags(data.values)
    _fill(book.add_worksheet(say_as("sheet", "Bags")), forms, headings, rows, frozen=4)
    told = [say(_VALUE_COLUMNS[name]) for name in COLUMNS]
    _fill(book.add_worksheet(say_as("sheet", "Values")), forms, told, map(_value_row, data.values), frozen=7)
    about = (say("About these results"),)
    _fill(book.add_worksheet(say_as("sheet", "About")), forms, about, _about(data, day), frozen=0)
    book.close()
    return packed.getvalue()


def _bags(values: Sequence[ResultValue]) -> tuple[tuple[str, ...], list[list[_Written]]]:
    """Return headings and rows of the bags: a column an analysis and unit, in the order in which they first stand."""
    columns = list(dict.fromkeys((one.analysis, one.name, one.unit) for one in values))
    rows: dict[tuple[object, ...], list[_Written]] = {}
    found: defaultdict[tuple[object, ...], dict[str, None]] = defaultdict(dict)
    places = {(code, unit): len(_BAG_COLUMNS) + place for place, (code, _, unit) in enumerate(columns)}
    for one in values:
        ground = (one.farm, one.zone, one.protocol, one.bag, one.top_cm, one.bottom_cm, one.sampled)
        key = (*ground, one.laboratory, one.report)
        if key not in rows:
            rows[key] = [*_bag(one), *[(None, "")] * len(columns)]
        rows[key][places[one.analysis, one.unit]] = _value(one)
        found[key].update(dict.fromkeys(filter(None, (one.findings, one.corrections))))
    named = (name if unit in _NO_UNIT else f"{name} [{unit}]" for _, name, unit in columns)
    told = [[*row, (" ".join(found[key]), "")] for key, row in rows.items()]
    return (*map(say, _BAG_COLUMNS), *named, say("Findings and corrections")), told


def _bag(one: ResultValue) -> list[_Written]:
    """Return what names a bag."""
    return [
        (one.farm_name, ""),
        (one.zone_name, ""),
        (one.protocol_name, ""),
        (one.bag, ""),
        (one.top_cm, "General"),
        (one.bottom_cm, "General"),
        (one.sampled, _DAY_FORM),
        (one.reported, _DAY_FORM),
        (one.laboratory, ""),
        (one.report, ""),
    ]


def _value(one: ResultValue) -> _Written:
    """Return a value: a number in the form of its method, or text with its `<` or `>`."""
    return (
        (digits(one.printed), "") if one.qualifier else (one.value, f"0.{'0' * one.decimals}" if one.decimals else "0")
    )


def _value_row(one: ResultValue) -> list[_Written]:
    """Return the row of one value."""
    forms = {"sampled": _DAY_FORM, "received": _DAY_FORM, "reported": _DAY_FORM, "issue": "0"}
    forms |= {"top_cm": "General", "bottom_cm": "General", "value": "General"}
    printed = digits(one.printed)
    return [(printed if name == "printed" else getattr(one, name), forms.get(name, "")) for name in COLUMNS]


def _about(data: ResultsData, day: date) -> list[list[_Written]]:
    """Return how to read the sheets."""
    said = (
        say(
            "Results of {client}, made by {practice} on {day}.",
            client=data.client,
            practice=data.practice,
            day=long_day(day, spoken()),
        ),
        say("Bags: one row a bag; a bag of which two reports speak has one row a report."),
        say("Values: every accepted value, as it stands after corrections, with its report and its issue."),
        say(
            "A value with < or > lies below or above what the laboratory can tell; it is text, so that it enters no "
            "sum."
        ),
        say("Printed has the decimals of the method; Value has every figure that was accepted."),
        say("As reported is the laboratory's own writing."),
        say("Values by different methods, or of different layers, do not compare."),
        say("Findings say what is odd about a value. Read them before you act on it, and ask your adviser."),
    )
    return [[(line, "")] for line in said]


class _Forms:
    """The forms of cells, each made once."""

    def __init__(self, book: Any) -> None:
        self._book = book
        self._made: dict[str, Format] = {}
        self.heading = book.add_format(
            {
                "bold": True,
                "font_color": _INK,
                "bg_color": _HEAD,
                "bottom": 1,
                "bottom_color": _LINE,
                "text_wrap": True,
                "valign": "bottom",
            }
        )
        #: Tells a spreadsheet that a text which looks like a formula is none, even once somebody edits it.
        self.text = book.add_format({"quote_prefix": True})

    def of(self, form: str) -> Format:
        """Return the form of numbers or days."""
        if form not in self._made:
            self._made[form] = self._book.add_format({"num_format": form})
        return self._made[form]


def _fill(
    sheet: Worksheet, forms: _Forms, headings: Sequence[str], rows: Iterable[Sequence[_Written]], frozen: int
) -> None:
    """Write a sheet: headings that stay in sight beside the first columns, a filter, widths that fit."""
    widths = [len(heading) + 2 for heading in headings]
    for place, heading in enumerate(headings):
        sheet.write_string(0, place, _shown(heading), forms.heading)
    last = 0
    for last, row in enumerate(rows, start=1):
        for place, (value, form) in enumerate(row):
            if value not in {None, ""}:
                _write(sheet, (last, place), value, forms, form)
                widths[place] = max(widths[place], len(str(value)) + 2)
    for place, width in enumerate(widths):
        sheet.set_column(place, place, min(max(width, _NARROW), _WIDE))
    sheet.freeze_panes(1, frozen)
    if len(headings) > 1:
        sheet.autofilter(0, 0, last, len(headings) - 1)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(0)


def _write(sheet: Worksheet, at: tuple[int, int], value: Any, forms: _Forms, form: str) -> None:
    """Write a cell, text always as text."""
    if isinstance(value, str):
        sheet.write_string(*at, _shown(value), forms.text if value[:1] in "=+-@" else None)
    elif isinstance(value, date):
        sheet.write_datetime(*at, value, forms.of(form))
    else:
        sheet.write_number(*at, value, forms.of(form))


def _shown(text: str) -> str:
    """Return text that the format can carry."""
    return text.translate(_UNSHOWN)[:_LONGEST]
