"""From the tables of a client's folder to records of the model."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from soilrota.book.parts import Located
from soilrota.files import Row, Table
from soilrota.model.applications import Application, Standing
from soilrota.model.cropping import CropYear
from soilrota.model.results import Result
from soilrota.model.samples import FieldNote
from soilrota.problems import Place


def _located(row: Row) -> Located[dict[str, Any]]:
    """Return a row as a located value; the place of a property is its column's."""

    def at(*path: str | int) -> Place:
        return row.place(*map(str, path[:1]))

    return Located(row.values, at, row.values)


def _rows(table: Table | None) -> Iterable[Located[dict[str, Any]]]:
    """Yield the rows of a table; nothing where there is no table."""
    for row in table.rows if table else ():
        yield _located(row)


def _text(value: object) -> str:
    """Return text; empty for an empty cell."""
    return "" if value is None else str(value)


def _number(value: Any) -> float | None:
    """Return a number; None for an empty cell."""
    return None if value is None else float(value)


def _day(value: object) -> date | None:
    """Return a day; None for an empty cell and for `unknown`."""
    return value if isinstance(value, date) else None


def build_applications(table: Table | None) -> tuple[Located[Application], ...]:
    """Return the applications; an empty last day is the first day, `unknown` is None."""
    return tuple(row.holding(_application(row.data, row.at())) for row in _rows(table))


def _application(data: Any, place: Place) -> Application:
    """Return one application."""
    first, last = data["first_day"], data.get("last_day")
    rate = data.get("rate_kg_ha")
    return Application(
        farm=data["farm"],
        zones=tuple(dict.fromkeys(_text(data.get("zones")).split())),
        material_class=data["class"],
        material=_text(data.get("material")),
        first_day=_day(first),
        last_day=_day(first) if last is None else _day(last),
        standing=Standing(data["standing"]),
        rate_kg_ha=None if rate is None else float(rate),
        place=place,
    )


def build_field_notes(table: Table | None) -> tuple[Located[FieldNote], ...]:
    """Return the field notes: one bag a row."""
    return tuple(
        row.holding(
            FieldNote(
                day=row.data["day"],
                farm=row.data["farm"],
                zone=row.data["zone"],
                protocol=row.data["protocol"],
                top_cm=float(row.data["top_cm"]),
                bottom_cm=float(row.data["bottom_cm"]),
                cores=row.data.get("cores"),
                soil_state=_text(row.data.get("soil_state")),
                sampler=_text(row.data.get("sampler")),
                bag=_text(row.data.get("bag")),
                place=row.at(),
            )
        )
        for row in _rows(table)
    )


def build_cropping(table: Table | None) -> tuple[Located[CropYear], ...]:
    """Return the cropping plan."""
    return tuple(
        row.holding(
            CropYear(
                farm=row.data["farm"],
                zone=row.data["zone"],
                year=row.data["year"],
                crop=_text(row.data.get("crop")),
                target_yield=_number(row.data.get("target_yield_t_ha")),
                target_protein_percent=_number(row.data.get("target_protein_percent")),
                leaves=_text(row.data.get("leaves_field")),
                place=row.at(),
            )
        )
        for row in _rows(table)
    )


def build_results(tables: Iterable[Table]) -> tuple[Located[Result], ...]:
    """Return the accepted results of all reports."""
    return tuple(row.holding(_result(row.data, row.at())) for table in tables for row in _rows(table))


def _result(data: Any, place: Place) -> Result:
    """Return one result."""
    return Result(
        report=data["report"],
        sampled=data["sampled"],
        reported=data["reported"],
        farm=data["farm"],
        zone=data["zone"],
        protocol=data["protocol"],
        bag=_text(data.get("bag")),
        top_cm=float(data["top_cm"]),
        bottom_cm=float(data["bottom_cm"]),
        analyte=data["analyte"],
        method=data["method"],
        qualifier=_text(data.get("qualifier")),
        value=float(data["value"]),
        unit=data["unit"],
        laboratory=data["laboratory"],
        place=place,
        issue=data.get("issue") or 1,
        received=_day(data.get("received")),
        as_reported=_text(data.get("as_reported")),
        origin=_text(data.get("origin")),
    )
