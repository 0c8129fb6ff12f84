"""From a laboratory's file to the forms of its results."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from soilrota.book.parts import Located
from soilrota.book.places import items
from soilrota.model.laboratory_files import AnalysisColumn, FileKind, GridForm, LaboratoryForm, RowShape, Spot
from soilrota.quantities import NumberForm, split_code

_DAY_FORM = "year-month-day"


def build_forms(laboratory_id: str, file: Located[Mapping[str, Any]]) -> tuple[Located[LaboratoryForm], ...]:
    """Return the forms of a laboratory, in the order of its file.

    Args:
        laboratory_id: id of the laboratory.
        file: the top of its file.
    """
    return tuple(item.holding(_form(laboratory_id, item)) for item in items(file, "forms"))


def _form(laboratory_id: str, item: Located[Mapping[str, Any]]) -> LaboratoryForm:
    """Return one form."""
    data = item.data
    numbers = data.get("numbers", {})
    return LaboratoryForm(
        name=data["name"],
        laboratory=laboratory_id,
        kind=FileKind(data["kind"]) if "kind" in data else None,
        grid=GridForm(data.get("delimiter", ""), data.get("encoding", ""), data.get("sheet", "")),
        shape=RowShape(data.get("shape", RowShape.SAMPLE)),
        numbers=_numbers(numbers),
        nd=numbers.get("nd", ""),
        day_form=data.get("day_form", _DAY_FORM),
        sample=Spot(heading=data["sample"]),
        report=_spot(data, "report"),
        issue=_spot(data, "issue"),
        sampled=_spot(data, "sampled"),
        received=_spot(data, "received"),
        reported=_spot(data, "reported"),
        depth=_spot(data, "depth"),
        top=_spot(data, "top"),
        bottom=_spot(data, "bottom"),
        analysis=_spot(data, "analysis"),
        value=_spot(data, "value"),
        unit=_spot(data, "unit"),
        method=_spot(data, "method"),
        columns=tuple(_column(column) for column in items(item, "columns")),
        ignored=tuple(data.get("ignored", ())),
        place=item.at(),
    )


def _numbers(data: Mapping[str, Any]) -> NumberForm | None:
    """Return how numbers are written; None where no decimal sign is declared, or it is the group sign too."""
    decimal, group = data.get("decimal"), data.get("group", "")
    # A rule says that two signs are one; the form must still be built, so that every other problem is found as well.
    return None if decimal is None or decimal == group else NumberForm(decimal, group, data.get("nd"))


def _spot(data: Mapping[str, Any], key: str) -> Spot | None:
    """Return where a fact stands; None where the form does not say."""
    written = data.get(key)
    if written is None:
        return None
    return Spot(heading=written) if isinstance(written, str) else Spot(label=written["label"])


def _column(item: Located[Mapping[str, Any]]) -> AnalysisColumn:
    """Return what one column, or one name, means."""
    data = item.data
    analyte, method = split_code(data["analysis"])
    return AnalysisColumn(
        heading=data["heading"],
        analyte=analyte,
        method=method,
        unit=data.get("unit", ""),
        unit_row=data.get("unit_row", False),
        low=data.get("low"),
        high=data.get("high"),
        laboratory_density=data.get("laboratory_density"),
        layer=data.get("layer", ""),
        place=item.at(),
    )
