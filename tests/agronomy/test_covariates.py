"""What a row hangs on: same bag first, then near in time, then what the map says."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

import pytest

from soilrota.agronomy.covariates import CLAY, codes_of, covariates_for
from soilrota.guidelines.judging import judging_figures
from soilrota.model.client import Forebear, Zone
from soilrota.model.guideline import PowerLine, Range
from soilrota.model.judgement import Quantity
from soilrota.model.results import Result
from soilrota.problems import Place
from tests.agronomy.small_sets import PBI, made_set, row
from tests.results.making import DAY, result
from tests.timing.test_tasks import zone

P = result("phosphorus.colwell", 30)
FLAT = zone("river-flat", "topsoil")


def value_of(code: str, *known: Result, at: Zone = FLAT, quantities: Sequence[Quantity] = ()) -> float | None:
    """Return the value of a covariate of the phosphorus; None where it is not known."""
    found = covariates_for(P, [code], at, known, quantities).get(code)
    return None if found is None else found.value


def pbi(value: str | float, sampled: date = DAY, **changes: object) -> Result:
    """Return a buffering index of the river flat."""
    return result(PBI, value, sampled, **changes)


def test_the_same_bag_goes_first() -> None:
    """Before a later one; without it the latest."""
    later, earlier = pbi(90, DAY + timedelta(200)), pbi(80, DAY - timedelta(700))
    assert value_of(PBI, later, pbi(70), earlier) == 70
    assert value_of(PBI, pbi(75, bag="other"), pbi(70)) == 70
    assert value_of(PBI, later, earlier) == 90
    assert value_of(PBI, earlier) == 80
    found = covariates_for(P, [PBI], FLAT, [earlier])[PBI]
    assert found.result == earlier


@pytest.mark.parametrize(
    "changes", [{"zone": "bank"}, {"farm": "away"}, {"bottom_cm": 15}, {"qualifier": "<"}, {"method": "other"}]
)
def test_what_is_no_covariate(changes: dict[str, object]) -> None:
    """Other ground, another layer, a censored value, another method."""
    assert value_of(PBI, replace(pbi(70), **changes)) is None


def test_how_far_away_in_time() -> None:
    """As the table says, to either side."""
    days = int(judging_figures().covariate_years * 365.2425)
    for sign in (-1, 1):
        assert value_of(PBI, pbi(70, DAY + timedelta(sign * days))) == 70
        assert value_of(PBI, pbi(70, DAY + timedelta(sign * (days + 1)))) is None


def test_a_redrawn_zone_starts_anew() -> None:
    """What was measured before the change is of other ground."""
    redrawn = replace(FLAT, follows=(Forebear(("river-flat",), date(2026, 7, 1), "redrawn", Place("client.yaml")),))
    assert value_of(PBI, pbi(70, date(2026, 6, 30)), at=redrawn) is None
    assert value_of(PBI, pbi(70, date(2026, 7, 1)), at=redrawn) == 70


def test_any_method_will_do() -> None:
    """Where the code names an analyte alone."""
    assert value_of("organic-carbon", result("organic-carbon.walkley-black", 1.8)) == 1.8
    assert value_of("organic-carbon.dry-combustion", result("organic-carbon.walkley-black", 1.8)) is None


def test_what_the_map_and_reckoning_say() -> None:
    """Clay of the zone; a reckoned exchange capacity, after a measured one, and of its layer alone."""
    assert value_of(CLAY, at=replace(FLAT, clay_percent=22)) == 22
    assert value_of(CLAY) is None
    reckoned = Quantity("exchange-capacity", 9.5, 9, 10, "cmol(+)/kg", 0, 10, (P, P))
    assert value_of("exchange-capacity", quantities=[reckoned]) == 9.5
    assert value_of("exchange-capacity", quantities=[replace(reckoned, bottom_cm=20)]) is None
    assert value_of("exchange-capacity", result("exchange-capacity.effective", 11), quantities=[reckoned]) == 11


def test_codes_that_rows_name() -> None:
    """Of ranges and of lines, each once."""
    held = made_set(row(ranges=(Range(PBI, 0, 70), Range(CLAY, None, 20))), row("q", line=PowerLine(PBI, 1, 1, 1)))
    assert codes_of([held]) == {PBI, CLAY}
