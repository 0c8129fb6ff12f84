"""Bags and clients for the checks of results."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from soilrota.model.client import Client
from soilrota.model.results import Result
from soilrota.problems import Place
from soilrota.quantities import method, split_code
from tests.timing.test_tasks import client as plain_client

DAY = date(2027, 2, 10)


def result(code: str, value: str | float, sampled: date = DAY, **changes: object) -> Result:
    """Return a result of the river flat's topsoil; a value such as `<0.5` is below what the laboratory can tell."""
    analyte, way = split_code(code)
    known = method(analyte, way)
    assert known is not None, code
    text = str(value)
    qualifier = text[0] if text[0] in "<>" else ""
    plain = Result(
        report=f"r-{sampled.year}", sampled=sampled, reported=sampled, farm="home", zone="river-flat",
        protocol="topsoil", bag=f"B{sampled.year}", top_cm=0, bottom_cm=10, analyte=analyte, method=way,
        qualifier=qualifier, value=float(text.removeprefix(qualifier)), unit=known.unit, laboratory="north-bench",
        place=Place(f"r-{sampled.year}.csv", 2),
    )  # fmt: skip
    return replace(plain, **changes)


def client(*results: Result, **changes: object) -> Client:
    """Return a client with these standing results."""
    return plain_client(results=results, **changes)
