"""The history of a client as a table."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from datetime import date

import pandas as pd
import pytest

from soilrota.model.client import Client
from soilrota.model.results import Result
from soilrota.problems import Place
from soilrota.results.history import DTYPES, comparability_key, history_frame
from tests.documents.made import CLIENTS, example
from tests.results.test_series import client


def result(day: date, number: float = 31.0, **changes: object) -> Result:
    """Return a result of the bank."""
    plain = Result(
        "R1", day, day, "home", "bank", "topsoil", "K1", 0, 10, "phosphorus", "colwell", "", number, "mg/kg",
        "north-bench", Place("r.csv", 2),
    )  # fmt: skip
    return replace(plain, **changes)


def held(*results: Result) -> Client:
    """Return a client with results, whose zones were merged, split and redrawn."""
    return replace(client(), results=results)


def breaks(*results: Result) -> list[str]:
    """Return what breaks the series, in order of day."""
    return list(history_frame(held(*results)).sort_values("sampled", kind="stable")["breaks"])


def test_columns_and_dtypes() -> None:
    """The table is as documented, with results and without."""
    for some in ((), (result(date(2027, 2, 1)),)):
        frame = history_frame(held(*some))
        assert list(frame.columns) == list(DTYPES)
        assert {name: str(dtype) for name, dtype in frame.dtypes.items()} == DTYPES
        assert len(frame) == len(some)
    documented = history_frame.__doc__ or ""
    assert all(f"`{name}`" in documented for name in DTYPES)


def test_one_row() -> None:
    """Every column of one result."""
    (row,) = history_frame(held(result(date(2027, 2, 1), qualifier="<", issue=2))).to_dict("records")
    assert row == {
        "client": "anvil-creek", "farm": "home", "zone": "bank", "series": "bank since 2026-07-01",
        "protocol": "topsoil", "top_cm": 0.0, "bottom_cm": 10.0, "sampled": pd.Timestamp("2027-02-01"),
        "season": "late-summer", "season_year": 2027, "analyte": "phosphorus", "method": "colwell", "qualifier": "<",
        "value": 31.0, "unit": "mg/kg", "laboratory": "north-bench", "report": "R1", "issue": 2, "bag": "K1",
        "breaks": "",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("changes", "why"),
    [
        ({}, ""),
        ({"method": "olsen"}, "method"),
        ({"bottom_cm": 15}, "depth"),
        ({"unit": "mg/l"}, "unit"),
        ({"sampled": date(2028, 6, 1)}, "season"),
        ({"method": "olsen", "bottom_cm": 7.5}, "method, depth"),
        ({"top_cm": 10, "bottom_cm": 30}, ""),
        ({"analyte": "sulphur"}, ""),
    ],
)
def test_what_breaks_a_series(changes: dict[str, object], why: str) -> None:
    """A change of method, unit, depth or season; another layer or analyte is another series, not a break."""
    later = replace(result(date(2028, 2, 1)), **changes)
    assert breaks(result(date(2027, 2, 1)), later) == ["", why]
    assert (comparability_key(held(), result(date(2027, 2, 1))) == comparability_key(held(), later)) is (changes == {})


def test_a_zone_that_changed() -> None:
    """The first value of each new series is cut from the one before, on this zone or on what it was."""
    years = [
        result(date(2024, 2, 1), zone="north"),
        result(date(2025, 2, 1), zone="river-flat"),
        result(date(2026, 2, 1)),
        result(date(2027, 2, 1)),
        result(date(2028, 2, 1)),
    ]
    assert breaks(*years) == ["", "zone merged", "zone split", "zone redrawn", ""]
    assert breaks(result(date(2024, 2, 1), zone="elsewhere"), result(date(2027, 2, 1))) == ["", ""]


def test_two_layers_of_one_day() -> None:
    """Each layer goes on with its own; of two that one layer replaces, the one that has most in common counts."""
    first = [result(date(2027, 2, 1)), result(date(2027, 2, 1), top_cm=10, bottom_cm=20)]
    second = [replace(one, sampled=date(2028, 2, 1)) for one in first]
    assert breaks(*first, *second) == [""] * 4
    assert breaks(*first, result(date(2028, 2, 1), bottom_cm=20))[2] == "depth"


@pytest.mark.parametrize("client_id", CLIENTS)
def test_the_examples(client_id: str) -> None:
    """Every result that stands is there once; the corrected value and the redrawn zone are as the example says."""
    one = example(client_id)
    frame = history_frame(one)
    assert len(frame) == len(one.results)
    assert frame["breaks"].isin(["", "method", "season", "zone redrawn"]).all()
    if client_id == "dune-end-sheep":
        plain = frame[(frame["zone"] == "plain") & (frame["analyte"] == "ph")]
        assert list(plain["breaks"]) == ["", "zone redrawn", ""]
        corrected = frame[(frame["report"] == "nb-2025-dune-03") & (frame["issue"] == 2)]
        assert set(corrected["zone"]) == {"limestone"}


def test_a_season_that_wraps_the_year_end() -> None:
    """February belongs to the season that began in the year before."""
    frame = history_frame(example("glen-tarn"))
    february = frame[frame["sampled"].dt.month == 2]
    assert (february["season_year"] == february["sampled"].dt.year - 1).all()
    assert (february["season"] != "").all()
    assert len(february) > 0


def test_pandas_waits_until_it_is_asked_for() -> None:
    """The package can be loaded without it."""
    code = "import sys, soilrota.results.history, soilrota.results.matching; sys.exit('pandas' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
