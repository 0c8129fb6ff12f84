"""From the practice's file and check_samples.csv to check materials and blind check samples; rows closed, the inbox."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import Any

from soilrota.book.parts import Located
from soilrota.book.places import items
from soilrota.files import Row, Table
from soilrota.model.practice import AssignedValue, CheckBag, CheckMaterial, DismissedRow, Inbox
from soilrota.problems import Place
from soilrota.quantities import method, split_code


def build_check_materials(file: Located[Mapping[str, Any]]) -> tuple[Located[CheckMaterial], ...]:
    """Return the check materials of the practice, in the order of the file."""
    return tuple(
        item.holding(
            CheckMaterial(
                id=item.data["id"],
                name=item.data["name"],
                values=tuple(_assigned(data) for data in item.data["values"]),
                place=item.at(),
            )
        )
        for item in items(file, "check_materials")
    )


def _assigned(data: Mapping[str, Any]) -> AssignedValue:
    """Return one assigned value; without a unit where the glossary has no such analysis, which a rule says."""
    analyte_id, method_id = split_code(data["analysis"])
    known = method(analyte_id, method_id)
    return AssignedValue(analyte_id, method_id, known.unit if known else "", float(data["value"]), float(data["sd"]))


def build_dismissed(file: Located[Mapping[str, Any]]) -> tuple[Located[DismissedRow], ...]:
    """Return the rows that the practice closed, in the order of the file."""
    return tuple(
        item.holding(DismissedRow(item.data["row"], item.data["reason"], item.data["by"], item.at()))
        for item in items(file, "dismissed_rows")
    )


def build_inbox(data: Mapping[str, Any]) -> Inbox:
    """Return how the inbox is taken in; what the file does not say is the house default."""
    inbox = data.get("inbox", {})
    return Inbox(float(inbox["quiet_s"])) if "quiet_s" in inbox else Inbox()


def build_check_bags(table: Table | None) -> tuple[Located[CheckBag], ...]:
    """Return the blind check samples, in the order of the table; none where there is no table."""
    return tuple(_check_bag(row) for row in (table.rows if table else ()))


def _check_bag(row: Row) -> Located[CheckBag]:
    """Return one check sample; the place of a property is its column's."""
    values = row.values
    bag = CheckBag(values["bag"], values["material"], values["laboratory"], values["sent"], row.place())
    return Located(bag, partial(_place, row), values)


def _place(row: Row, *path: str | int) -> Place:
    """Return the place of a column of a row."""
    return row.place(*map(str, path[:1]))
