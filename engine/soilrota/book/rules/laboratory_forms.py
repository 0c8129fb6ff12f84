"""Forms of laboratories' files: each column means something of the glossary, and no file reads in two ways."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from soilrota.book.parts import Located, SharedParts
from soilrota.book.rules.references import unknown
from soilrota.book.rules.repeats import repeated
from soilrota.files import heading_key
from soilrota.model.laboratory_files import LaboratoryForm, RowShape
from soilrota.problems import Place, Problem, error
from soilrota.quantities import Refusal, all_codes, factor, method

#: The properties of a form that name a place in the file.
_SPOTS = (
    "sample", "report", "issue", "sampled", "received", "reported", "depth", "top", "bottom",
    "analysis", "value", "unit", "method",
)  # fmt: skip
_OF_VALUES = ("analysis", "value", "unit", "method")


def form_names_are_unique(parts: SharedParts) -> Iterator[Problem]:
    """The forms of one laboratory have different names."""
    names = [((form.value.laboratory, form.value.name), form.value.name, form.at("name")) for form in parts.forms]
    yield from repeated("repeated-id", "form", names, "give one of them another name, or take it out")


def form_analyses_exist(parts: SharedParts) -> Iterator[Problem]:
    """Every column means an analysis of the glossary."""
    for form in parts.forms:
        for i, column in enumerate(form.value.columns):
            if column.code not in all_codes():
                yield unknown(
                    "unknown-analysis", form.at("columns", i, "analysis"), "analysis", column.code, all_codes()
                )


def form_units_lead_to_the_glossary(parts: SharedParts) -> Iterator[Problem]:
    """The unit of a column can be converted to the glossary's unit of its method, with what the column declares."""
    for form in parts.forms:
        for i, column in enumerate(form.value.columns):
            known = method(column.analyte, column.method)
            if known is None or not column.unit:
                continue
            found = factor(column.unit, known.unit, column.analyte, soil=column.soil)
            if isinstance(found, Refusal):
                place = form.at("columns", i, "unit")
                yield error("unit-refused", place, f"'{column.heading}': {found.found}", found.expected, found.mend)


def form_units_stand_once(parts: SharedParts) -> Iterator[Problem]:
    """A column's unit is declared, or stands in the file: in the row of units, or in the column of units."""
    for form in parts.forms:
        is_values = form.value.shape is RowShape.VALUE
        for i, column in enumerate(form.value.columns):
            named = f"'{column.heading}'"
            if column.unit_row and (column.unit or is_values):
                found = f"unit_row of {named}" + (" in a table of one value a row" if is_values else " beside a unit")
                place = form.at("columns", i, "unit_row")
                yield error("unit-twice", place, found, "one place for the unit", "take unit_row out")
            elif not (column.unit or column.unit_row or (is_values and form.value.unit)):
                expected = "unit" if is_values else "unit, or unit_row: true where it stands below the headings"
                mend = "add the unit as the laboratory means it, for instance unit: mg/kg"
                if is_values:
                    mend += ", or name the form's column of units"
                yield error("no-unit", form.at("columns", i), f"{named} has no unit", expected, mend)


def form_headings_stand_once(parts: SharedParts) -> Iterator[Problem]:
    """No heading of a table, and no name of an analysis, is declared twice; capitals and blanks make no difference."""
    for form in parts.forms:
        for named in _declared(form).values():
            yield from repeated("mapped-twice", "the heading", named, "name another heading for one of them")


def _declared(form: Located[LaboratoryForm]) -> dict[str, list[tuple[str, str, Place]]]:
    """Return (key, name, place) of all headings of a form; those of names of analyses apart, where it has such."""
    by_kind: dict[str, list[tuple[str, str, Place]]] = defaultdict(list)
    names = "name" if form.value.shape is RowShape.VALUE else "heading"
    for key in _SPOTS:
        spot = getattr(form.value, key)
        if spot is not None and spot.heading:
            by_kind["heading"].append((heading_key(spot.heading), f"'{spot.heading}'", form.at(key)))
    for i, column in enumerate(form.value.columns):
        place = form.at("columns", i, "heading")
        by_kind[names].append((heading_key(column.heading), f"'{column.heading}'", place))
    for i, word in enumerate(form.value.ignored):
        # Of one value a row, an ignored word may be a heading or a name, but not one that is declared as either.
        for kind in {"heading", names}:
            by_kind[kind].append((heading_key(word), f"'{word}'", form.at("ignored", i)))
    return by_kind


def forms_say_what_their_shape_needs(parts: SharedParts) -> Iterator[Problem]:
    """One value a row needs the columns of names and values; one sample a row has none of them."""
    for form in parts.forms:
        if form.value.shape is RowShape.VALUE:
            for key in ("analysis", "value"):
                if getattr(form.value, key) is None:
                    found = f"form {form.value.name} of one value a row has no '{key}'"
                    mend = f"add the heading of that column, for instance {key}: {key.capitalize()}"
                    yield error("missing-key", form.at("shape"), found, key, mend)
            continue
        for key in _OF_VALUES:
            if getattr(form.value, key) is not None:
                found = f"'{key}' in form {form.value.name}, of one sample a row"
                mend = "take it out, or write shape: value-a-row"
                yield error("not-together", form.at(key), found, "", mend)


def form_numbers_are_sound(parts: SharedParts) -> Iterator[Problem]:
    """Decimal and group sign differ, a group sign has its decimal sign, and a column's limits stand in order."""
    for form in parts.forms:
        numbers = form.data.get("numbers", {})
        decimal, group = numbers.get("decimal"), numbers.get("group", "")
        if group and decimal is None:
            place = form.at("numbers", "group")
            yield error("missing-key", place, "a group sign without a decimal sign", "both", "add the decimal sign")
        elif group and group == decimal:
            place = form.at("numbers", "group")
            yield error("signs-alike", place, f"'{group}' for both signs", "two different signs", "correct one of them")
        for i, column in enumerate(form.value.columns):
            if column.low is not None and column.high is not None and column.low >= column.high:
                found = f"low {column.low:g} and high {column.high:g} of '{column.heading}'"
                yield error("limits-swapped", form.at("columns", i, "low"), found, "low below high", "swap the two")


def form_encodings_exist(parts: SharedParts) -> Iterator[Problem]:
    """A declared text encoding is one that can be read."""
    for form in parts.forms:
        name = form.value.grid.encoding
        if name and not _is_encoding(name):
            mend = "write its usual name, or take the line out to have it found out"
            place = form.at("encoding")
            yield error("unknown-encoding", place, f"'{name}'", "a text encoding, for instance windows-1252", mend)


def _is_encoding(name: str) -> bool:
    """Return whether a name is that of a text encoding."""
    try:
        return bool("a".encode(name))
    except (LookupError, ValueError):
        return False
