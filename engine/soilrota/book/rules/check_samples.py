"""Check samples: materials, analyses, laboratories and people exist, ids of bags are right and stand once."""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.bag_ids import is_bag_id, with_check
from soilrota.book.parts import SharedParts
from soilrota.book.rules.references import unknown
from soilrota.book.rules.repeats import repeated
from soilrota.problems import Problem, error
from soilrota.quantities import all_codes, method


def materials_stand_once(parts: SharedParts) -> Iterator[Problem]:
    """Check materials have different ids, and each says once what it holds of an analysis."""
    materials = [(one.value.id, one.value.id, one.at("id")) for one in parts.check_materials]
    yield from repeated("repeated-id", "check material", materials, "give one of them another id, or take it out")
    for one in parts.check_materials:
        codes = [data["analysis"] for data in one.data["values"]]
        values = [(code, code, one.at("values", number, "analysis")) for number, code in enumerate(codes)]
        yield from repeated("repeated-value", "value of", values, "keep one of them")


def materials_name_analyses(parts: SharedParts) -> Iterator[Problem]:
    """Check materials name analyses of the glossary."""
    for one in parts.check_materials:
        for number, data in enumerate(one.data["values"]):
            if data["analysis"] not in all_codes():
                place = one.at("values", number, "analysis")
                yield unknown("unknown-analysis", place, "analysis", data["analysis"], all_codes())


def assigned_values_are_possible(parts: SharedParts) -> Iterator[Problem]:
    """An assigned value is one that a soil can have."""
    for one in parts.check_materials:
        for number, assigned in enumerate(one.value.values):
            known = method(assigned.analyte, assigned.method)
            if known is not None and not known.low <= assigned.value <= known.high:
                found, expected = f"{known.name} of {assigned.value:g}", f"{known.low:g} to {known.high:g} {known.unit}"
                mend = "check the figure, its unit and its method"
                yield error("value-not-possible", one.at("values", number, "value"), found, expected, mend)


def check_bags_lead_somewhere(parts: SharedParts) -> Iterator[Problem]:
    """A check sample names a material and a laboratory that exist."""
    practice = parts.practice.value
    for bag in parts.check_bags:
        material, laboratory = bag.value.material, bag.value.laboratory
        if material not in practice.check_materials:
            place = bag.at("material")
            yield unknown("unknown-material", place, "check material", material, practice.check_materials)
        if laboratory not in practice.laboratories:
            place = bag.at("laboratory")
            yield unknown("unknown-laboratory", place, "laboratory", laboratory, practice.laboratories)


def check_bags_are_bag_ids(parts: SharedParts) -> Iterator[Problem]:
    """The id of a check sample is a bag id as it is printed, its check character included."""
    for bag in parts.check_bags:
        written = bag.value.bag
        if is_bag_id(written):
            continue
        right = with_check(written)
        mend = f"write {right}, if letter and digits are right" if right else "take the id from the label"
        expected = "a letter, four digits or more, a hyphen and the check character"
        yield error("bad-bag-id", bag.at("bag"), f"'{written}' is no bag id", expected, mend)


def check_bags_stand_once(parts: SharedParts) -> Iterator[Problem]:
    """A bag was sent once."""
    bags = [(bag.value.bag, bag.value.bag, bag.at("bag")) for bag in parts.check_bags]
    yield from repeated("bag-repeated", "bag", bags, "correct the bag id of one row, or take a doubled row out")


def dismissed_rows_stand_once(parts: SharedParts) -> Iterator[Problem]:
    """A row is closed once."""
    rows = [(row.value.row, row.value.row, row.at("row")) for row in parts.dismissed]
    yield from repeated("repeated-row", "row", rows, "keep one of them")


def dismissals_name_people(parts: SharedParts) -> Iterator[Problem]:
    """Who closed a row is a person of the practice."""
    people = parts.practice.value.people
    for row in parts.dismissed:
        if row.value.by not in people:
            yield unknown("unknown-person", row.at("by"), "person", row.value.by, people)
