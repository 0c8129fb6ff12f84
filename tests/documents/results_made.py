"""A few values made by hand, also such as nobody should trust."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from soilrota.documents import ResultsData
from soilrota.documents.results_data import ResultValue

DAY = date(2027, 2, 15)
PLAIN = ResultValue(
    farm="home",
    farm_name="Home",
    zone="flat",
    zone_name="Flat",
    protocol="topsoil",
    protocol_name="Topsoil",
    bag="B-1",
    top_cm=0.0,
    bottom_cm=10.0,
    sampled=date(2027, 1, 5),
    received=None,
    reported=date(2027, 1, 20),
    laboratory="Bench Laboratory",
    report="R-1",
    issue=1,
    analysis="ph.cacl2",
    name="pH (CaCl2)",
    qualifier="",
    value=5.234,
    unit="pH",
    decimals=1,
    as_reported="5.234",
    findings="",
    corrections="",
)
COLWELL = replace(PLAIN, analysis="phosphorus.colwell", name="Colwell P", value=27.0, unit="mg/kg", decimals=0)
LOW = replace(COLWELL, bag="B-2", qualifier="<", value=0.5)
EVIL = ("=1+1", "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)", "\t=1", '=HYPERLINK("http://x")', "a\x00b\x1fc", "#REF!")


def data(*values: ResultValue) -> ResultsData:
    """Return the results of a client."""
    return ResultsData("Ash Farm", "Small Soil Practice", values or (PLAIN, COLWELL, LOW))
