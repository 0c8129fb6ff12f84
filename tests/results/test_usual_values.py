"""A value against the zone's own history: what compares, how far off it is, and a slow oracle."""

from __future__ import annotations

import os
import random
from dataclasses import replace
from datetime import date
from itertools import product
from math import exp, log, sqrt

import numpy as np
import pytest

from soilrota.guidelines.plausibility import usual_spread
from soilrota.model.client import Forebear
from soilrota.model.result_findings import Grade, ResultFinding, ResultRule
from soilrota.model.results import Result
from soilrota.problems import Place
from soilrota.results.bags import between
from soilrota.results.usual_values import History, check_history, usual_value
from tests.results.making import client, result

#: Random histories held against the oracle.
HISTORIES = 20_000 if os.environ.get("SOILROTA_LONG") == "1" else 600
OLSEN, PH = "phosphorus.olsen", "ph.cacl2"
YEARS = range(2020, 2027)


def series(code: str, *values: str | float) -> list[Result]:
    """Return results of one year after the other, the last in 2026."""
    days = [date(2027 - len(values) + number, 2, 12) for number in range(len(values))]
    return [result(code, value, day) for value, day in zip(values, days, strict=True)]


def found(judged: Result, *earlier: Result, **changes: object) -> ResultFinding | None:
    """Return what is found about a result, given others that stand."""
    return check_history(judged, History(client(*earlier, judged, **changes)))


def test_far_from_the_history() -> None:
    """Beyond 3.5 a doubt, beyond 6 set aside; what is usual is not remarked on, nor what has no history."""
    history = series(OLSEN, 20, 24, 21, 22)
    assert found(result(OLSEN, 30), *history) is None
    assert found(result(OLSEN, 30)) is None
    doubt, extreme = found(result(OLSEN, 65), *history), found(result(OLSEN, 210), *history)
    assert doubt is not None
    assert extreme is not None
    assert (doubt.rule, doubt.grade, extreme.grade) == (ResultRule.HISTORY, Grade.DOUBT, Grade.SET_ASIDE)
    usual = exp((log(21) + log(22)) / 2)
    assert doubt.facts == {
        "analysis": OLSEN,
        "value": 65.0,
        "usual": pytest.approx(usual),
        "spread": pytest.approx(usual * usual_spread("phosphorus").sd),
        "years": 4,
    }
    assert (doubt.analyses, doubt.key.sampled) == ((OLSEN,), date(2027, 2, 10))


def test_ph_is_compared_as_it_is() -> None:
    """One and a half units are far; a nought in front of a concentration is no infinity."""
    history = series(PH, 5.2, 5.3, 5.2)
    assert found(result(PH, 5.6), *history) is None
    far = found(result(PH, 4.2), *history)
    assert far is not None
    assert far.facts["usual"] == 5.2
    assert found(result("nitrate-nitrogen.kcl", 0), *series("nitrate-nitrogen.kcl", 0, 1)) is None


def test_one_earlier_value_counts_with_its_doubt() -> None:
    """The same distance is a finding after many years, and none after one."""
    assert found(result(OLSEN, 58), *series(OLSEN, 22)) is None
    assert found(result(OLSEN, 58), *series(OLSEN, 22, 22, 22, 22, 22, 22)) is not None


def test_a_zone_that_varies_is_given_more_room() -> None:
    """From four samplings on its own spread counts where it is larger, and never where it is smaller."""
    assert found(result(OLSEN, 75), *series(OLSEN, 10, 40, 12, 45)) is None
    assert found(result(OLSEN, 75), *series(OLSEN, 20, 22, 21, 23)) is not None
    assert found(result(OLSEN, 30), *series(OLSEN, 22, 22, 22, 22)) is None


@pytest.mark.parametrize(
    "changes",
    [
        {"analyte": "phosphorus", "method": "colwell"},
        {"zone": "bank"},
        {"protocol": "subsoil"},
        {"top_cm": 10, "bottom_cm": 20},
        {"sampled": date(2027, 2, 10)},
        {"sampled": date(2028, 2, 10)},
        {"report": "r-2027"},
    ],
)
def test_what_does_not_compare(changes: dict[str, object]) -> None:
    """Another method, zone, protocol or layer, the same day, a later one, the same report: no history."""
    history = [replace(one, **changes) for one in series(OLSEN, 20, 24, 21, 22)]
    assert found(result(OLSEN, 300), *history) is None


def test_a_report_of_another_laboratory_may_carry_the_same_number() -> None:
    """The own report is told by laboratory and number."""
    history = [replace(one, report="r-2027", laboratory="other") for one in series(OLSEN, 20, 24, 21, 22)]
    assert found(result(OLSEN, 300), *history) is not None


def test_a_redrawn_zone_starts_anew() -> None:
    """What was sampled before does not compare; an older result is still judged by the older series."""
    base = client()
    forebear = Forebear(("river-flat",), date(2026, 1, 1), "redrawn", Place("client.yaml"))
    zones = tuple(replace(zone, follows=(forebear,)) for zone in base.farms[0].zones)
    farms = (replace(base.farms[0], zones=zones),)
    history = series(OLSEN, 20, 24, 21, 22)
    assert found(result(OLSEN, 150), *history[:-1], farms=farms) is None
    last = found(result(OLSEN, 150), *history, farms=farms)
    assert last is not None
    assert last.facts["years"] == 1
    older = found(result(OLSEN, 150, date(2025, 12, 31), report="r-x"), *history, farms=farms)
    assert older is not None
    assert older.facts["years"] == 3


def test_of_two_results_of_one_day_the_last_stands() -> None:
    """A second report about the same day is no second sampling."""
    history = series(OLSEN, 20, 20)
    usual = History(client(*history, replace(history[-1], report="r-x", value=40))).usual(result(OLSEN, 30))
    assert usual is not None
    assert usual.samplings == 2
    assert usual.in_unit()[0] == pytest.approx(sqrt(20 * 40))


def test_values_that_are_not_told_exactly() -> None:
    """Below a limit is near any value below it, and far only from what lies far above it."""
    low = series(OLSEN, "<5", "<5", "<5")
    assert found(result(OLSEN, "<10"), *low) is None
    assert found(result(OLSEN, 1), *low) is None
    assert found(result(OLSEN, 6), *low) is None
    far = found(result(OLSEN, 90), *low)
    assert far is not None
    assert far.facts["usual"] == pytest.approx(5)
    below = found(result(OLSEN, "<5"), *series(OLSEN, 80, 90, 85))
    assert below is not None
    assert below.facts["value"] == "<5"
    assert found(result(OLSEN, ">5"), *series(OLSEN, 80, 90, 85)) is None
    above = found(result(OLSEN, ">400"), *series(OLSEN, 20, 22, 24))
    assert above is not None
    assert above.facts["value"] == ">400"


def least_distance(earlier: list[Result], judged: Result) -> float:
    """Return the least distance over a grid of all that the values may be, from the formulas as they are printed."""
    is_log, step = judged.analyte != "ph", 0.1 if judged.analyte == "ph" else 1.0

    def scale(value: float) -> float:
        return log(max(value, step / 2)) if is_log else value

    def grid(one: Result) -> list[float]:
        ends = between(one)
        if one.qualifier == "<":
            return [scale(end) for end in np.linspace(1e-6 if is_log else 2, ends.high, 12)]
        if one.qualifier == ">":
            return [scale(ends.low * (1.4**power)) for power in range(40)]
        return [scale(ends.low)]

    told = [scale(one.value) for one in earlier if not one.qualifier]
    own = 0.0
    if len(told) >= 4:
        own = 1.4826 * float(np.median(np.abs(np.array(told) - np.median(told))))
    spread = max(own, usual_spread(judged.analyte).sd)
    count = len(earlier)
    variance = spread**2 * (1 + min(1.0, 1.5708 / count))
    ends = [(scale(0) if one.qualifier == "<" else scale(one.value), 1e9 if one.qualifier == ">" else scale(one.value))
            for one in earlier]  # fmt: skip
    lows, highs = (float(np.median([end[side] for end in ends])) for side in (0, 1))
    middle = lows if highs > 1e6 else highs
    for value in (scale(judged.value), middle):
        variance += (step / (exp(value) if is_log else 1)) ** 2 / 12
    gaps = [point[0] - float(np.median(point[1:])) for point in product(grid(judged), *(grid(one) for one in earlier))]
    least = 0.0 if min(gaps) <= 0 <= max(gaps) else min(gaps, key=abs)
    return least / sqrt(variance)


def test_the_distance_equals_a_slow_reading() -> None:
    """Random histories of one to six years, one value or two of them not told exactly."""
    chance = random.Random(7)
    far = 0
    for _ in range(HISTORIES):
        code = chance.choice([PH, OLSEN])
        values: list[str | float]
        values = [
            round(chance.gauss(5.5, 0.3), 1) if code == PH else float(round(exp(chance.gauss(3, 0.4))))
            for _ in range(chance.randrange(2, 7))
        ]
        values[-1] = round(chance.uniform(3, 8), 1) if code == PH else float(round(exp(chance.uniform(0, 6))))
        for place in chance.sample(range(len(values)), chance.randrange(3)):
            values[place] = chance.choice("<>") + str(values[place])
        *earlier, judged = series(code, *values)
        usual = usual_value(earlier, judged)
        assert usual is not None
        expected = least_distance(earlier, judged)
        assert usual.distance(judged) == pytest.approx(expected, abs=1e-9), values
        far += abs(expected) > 3.5
    assert far > HISTORIES / 20
