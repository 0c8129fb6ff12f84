"""What replicate bags say of the spread."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from math import log, sqrt
from random import Random

import pytest

from soilrota.agronomy.replicates import is_on_log_scale, replicates_of
from soilrota.model.results import Result
from tests.results.making import result

P, PH = "phosphorus.colwell", "ph.cacl2"


def pair(code: str, first: str | float, second: str | float, **changes: object) -> list[Result]:
    """Return two bags of one sampling."""
    return [result(code, first, bag="A", **changes), result(code, second, bag="B", **changes)]


def test_two_bags() -> None:
    """Two values give one degree; concentrations as logarithms, pH as it is."""
    held = replicates_of((*pair(P, 20, 30), *pair(PH, 5.0, 5.2)))
    assert held[P].degrees == held[PH].degrees == 1
    assert held[P].sd == pytest.approx(log(30 / 20) / sqrt(2))
    assert held[PH].sd == pytest.approx(0.2 / sqrt(2))
    assert [is_on_log_scale(unit) for unit in ("mg/kg", "pH", "%")] == [True, False, True]


def test_groups_are_pooled() -> None:
    """Zones of different level count alike; degrees add up."""
    held = replicates_of((*pair(P, 20, 30), *pair(P, 200, 300, zone="bank"), result(P, 25, bag="C")))
    assert (held[P].degrees, held[P].groups) == (3, 2)
    logs = [log(20), log(30), log(25)]
    squares = sum((one - sum(logs) / 3) ** 2 for one in logs) + log(1.5) ** 2 / 2
    assert held[P].sd == pytest.approx(sqrt(squares / 3))


@pytest.mark.parametrize(
    "changes",
    [
        {"zone": "bank"}, {"protocol": "subsoil"}, {"top_cm": 10, "bottom_cm": 20}, {"sampled": date(2027, 2, 11)},
        {"laboratory": "south-bench"}, {"method": "olsen"}, {"bag": "A"}, {"bag": ""}, {"qualifier": "<"},
        {"value": 0.0},
    ],
)  # fmt: skip
def test_what_is_no_replicate(changes: dict[str, object]) -> None:
    """Other ground, layer, day, laboratory or method; the same bag, or none; a value that is not told."""
    first, second = pair(P, 20, 30)
    assert replicates_of((first, replace(second, **changes))) == {}


def test_the_true_spread_is_found() -> None:
    """Many pairs give back the spread that they were drawn with."""
    random = Random(3)
    bags = []
    for number in range(400):
        mean = random.uniform(2, 5)
        values = [2.718281828 ** random.gauss(mean, 0.2) for _ in range(2)]
        bags += pair(P, *values, zone=f"z{number}")
    assert replicates_of(bags)[P].sd == pytest.approx(0.2, rel=0.1)
