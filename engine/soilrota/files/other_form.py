"""Tables with the headings, words and days of another form: what a phone or a tablet writes, read as ours.

House defaults, where nothing says otherwise:

- A file is read as ours where it has none of the other form's headings and either all that we need or nothing but our
  own; then unknown columns are errors as ever. Any other file is read by the form, and what it does not name is left
  out.
- Headings are compared letter by letter, blanks at their ends apart; words in cells without regard to case. Our own
  words stay good, and so does a day that begins with its year.
- A time of day behind a day is left out, unless it names a time zone: then the day could be another one here.
"""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any, Protocol

from soilrota.files.cells import Cell
from soilrota.files.columns import Column, header_problems, not_commas
from soilrota.files.suggest import nearest_name
from soilrota.files.wording import described
from soilrota.language import phrase
from soilrota.problems import Place, Problem, error, warning

_DAY = re.compile(
    r"([0-9]{1,4})[-/. ]([0-9]{1,2})[-/. ]([0-9]{1,4})"
    r"(?:[T,]? ?[0-9]{1,2}:[0-9]{2}(?::[0-9]{2}(?:\.[0-9]+)?)?(?: ?[AaPp][Mm])?)?",
    re.ASCII,
)
_YEAR_DIGITS = 4
_EXAMPLES = {"year-month-day": "2027-01-21", "day-month-year": "21/01/2027", "month-day-year": "01/21/2027"}


@dataclass(frozen=True, slots=True)
class OtherForm:
    """How another program writes a table of ours.

    Attributes:
        headings: its heading by our column; a column that is not named has our heading.
        words: by our column, its words and ours for each.
        day_form: order of its days: `year-month-day`, `day-month-year` or `month-day-year`.
        stands: where a person says so, for mends.
    """

    headings: Mapping[str, str]
    words: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    day_form: str = "year-month-day"
    stands: str = "practice.yaml (field_notes)"


class Reader(Protocol):
    """Turns the cells of one column into values."""

    @property
    def name(self) -> str:
        """Its heading in the file."""

    def value(self, text: str, place: Place) -> tuple[Any, Problem | None]:
        """Return the typed value of a cell, or None and what is wrong with it."""


#: What is read from the cells of one heading: our column and how; None where they are left out.
Slot = tuple[str, Reader] | None


@dataclass(frozen=True, slots=True)
class FormColumn:
    """A column of ours as another form writes it.

    Attributes:
        column: the column, under its heading in the file.
        words: the form's words and ours for each.
        day_form: order of its days.
        stands: where a person says so.
    """

    column: Column
    words: Mapping[str, str]
    day_form: str
    stands: str

    @property
    def name(self) -> str:
        """Its heading in the file."""
        return self.column.name

    def value(self, text: str, place: Place) -> tuple[Any, Problem | None]:
        """Return the typed value of a cell, or None and what is wrong with it."""
        if text and self.column.schema.get("format") == "date":
            day = day_of(text, self.day_form)
            return (day, None) if day else (None, self._no_day(text, place))
        choices = [choice for choice in self.column.schema.get("enum", ()) if choice is not None]
        ours = {word.casefold(): meant for word, meant in self.words.items()}.get(text.casefold(), text)
        if self.words and ours and ours not in choices:
            return None, self._unknown(text, place, [*choices, *self.words])
        return self.column.value(ours, place)

    def _no_day(self, text: str, place: Place) -> Problem:
        """Return that a cell holds no day of the form."""
        expected = f"a day as {self.day_form}, as {self.stands} says"
        mend = f"write it as {_EXAMPLES[self.day_form]}, or correct day_form in {self.stands}"
        return error("bad-date", place, f"'{text[:80]}' is no such day, in '{self.name}'", expected, mend)

    def _unknown(self, text: str, place: Place, known: list[str]) -> Problem:
        """Return that a cell holds a word that neither the form nor the table knows."""
        near = nearest_name(text, known)
        write = f"write '{near}'" if near else f"write one of {', '.join(known)}"
        mend = f"{write}, or say in {self.stands} what '{text[:80]}' means"
        found = f"'{text[:80]}' in '{self.name}' is not known here"
        return error("unknown-word", place, found, f"one of {', '.join(known)}", mend)


def day_of(text: str, day_form: str) -> date | None:
    """Return the day that a text names in that order, or with its year first; None where it names none.

    >>> day_of("21/01/2027", "day-month-year"), day_of("21/01/27", "day-month-year")
    (datetime.date(2027, 1, 21), None)
    """
    match = _DAY.fullmatch(text)
    if match is None:
        return None
    parts = match.group(1, 2, 3)
    order = "year-month-day" if len(parts[0]) == _YEAR_DIGITS else day_form
    named = dict(zip(order.split("-"), parts, strict=True))
    if len(named["year"]) != _YEAR_DIGITS:
        return None
    try:
        return date(int(named["year"]), int(named["month"]), int(named["day"]))
    except ValueError:
        return None


def slots_of(
    header: list[Cell], columns: Mapping[str, Column], form: OtherForm | None, name: str
) -> tuple[tuple[Slot, ...], tuple[Problem, ...]]:
    """Return what is read from each column of a table, and what is wrong with its header.

    Args:
        header: the first row.
        columns: our columns by name.
        form: another form that the table may have; None for ours alone.
        name: the file's name in the book.
    """
    titles = [unicodedata.normalize("NFC", cell.text) for cell in header]
    if form is None or _is_ours([title.strip() for title in titles], columns, form):
        return tuple((title, columns[title]) if title in columns else None for title in titles), header_problems(
            header, columns, name
        )
    split = not_commas(header, name)
    if split is not None:
        return (), (split,)
    return _form_slots([title.strip() for title in titles], columns, form), tuple(
        _form_problems(header, columns, form, name)
    )


def _is_ours(titles: list[str], columns: Mapping[str, Column], form: OtherForm) -> bool:
    """Return whether a header is ours rather than the form's."""
    foreign = {heading for ours, heading in form.headings.items() if heading != ours}
    needed = {column.name for column in columns.values() if column.required}
    return not foreign.intersection(titles) and (needed.issubset(titles) or set(titles).issubset(columns))


def _wanted(titles: Collection[str], columns: Mapping[str, Column], form: OtherForm) -> dict[str, str]:
    """Return our column by the heading that holds it.

    Where the form's heading is not there and ours is, ours holds it, unless the form uses it for another column.
    """
    taken = set(form.headings.values())
    wanted: dict[str, str] = {}
    for ours in columns:
        heading = form.headings.get(ours, ours)
        if heading not in titles and ours in titles and ours not in taken:
            heading = ours
        if ours in form.headings or ours not in taken:
            wanted[heading] = ours
    return wanted


def _form_slots(titles: list[str], columns: Mapping[str, Column], form: OtherForm) -> tuple[Slot, ...]:
    """Return what is read from each column of a table of the form."""
    wanted = _wanted(titles, columns, form)

    def slot(title: str) -> Slot:
        ours = wanted.get(title)
        if ours is None:
            return None
        column = replace(columns[ours], name=title)
        return ours, FormColumn(column, form.words.get(ours, {}), form.day_form, form.stands)

    return tuple(slot(title) for title in titles)


def _form_problems(header: list[Cell], columns: Mapping[str, Column], form: OtherForm, name: str) -> Iterator[Problem]:
    """Yield headings that stand twice, that say the same as another, or that are missing."""
    titles = [unicodedata.normalize("NFC", cell.text).strip() for cell in header]
    wanted = _wanted(titles, columns, form)
    seen: Counter[str] = Counter()
    for title, cell in zip(titles, header, strict=True):
        place = Place(name, cell.line, cell.column, title)
        if title in wanted and seen[title]:
            yield error("duplicate-column", place, f"the column '{title}' stands twice", "", "take one out")
        heading = form.headings.get(title)
        if title in columns and title not in wanted and heading in titles:
            found = f"'{title}' stands beside '{heading}', which holds the {columns[title].schema['title'].lower()} too"
            mend = f"take one of the two out, or correct the columns in {form.stands}"
            yield error("ambiguous-column", place, found, "one column for each thing", mend)
        seen[title] += 1
    for heading, ours in wanted.items():
        if heading not in seen and (columns[ours].required or ours in form.headings):
            yield _missing(heading, columns[ours], form, [title for title in titles if title not in wanted], name)


def _missing(heading: str, column: Column, form: OtherForm, others: list[str], name: str) -> Problem:
    """Return that a heading of the form is missing: an error where the table needs it, else a warning."""
    near = nearest_name(heading, others)
    key, stands = f"columns.{column.name}", form.stands
    mend = phrase("add the column, or name the one that holds it under {key} in {stands}", key=key, stands=stands)
    if near:
        mend = phrase("name '{heading}' under {key} in {stands}", heading=near, key=key, stands=stands)
    report = error if column.required else warning
    found = phrase("the column '{heading}' is missing", heading=heading)
    return report("missing-column", Place(name, 1, 1), found, described(column.schema), mend)
