"""What a legume before leaves, and what of it a profile holds already."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.agronomy.advice.legume_credit import Legume, legume_before, legume_credit
from soilrota.model.practice import Hemisphere
from tests.agronomy.advice.nutrient_cases import crop

PEAS = crop("Field peas", 2.0, "grain", year=2026)
PLAN = (crop("wheat", 3.0, year=2025), PEAS, crop("wheat", 4.0, year=2027))
SOUTHERN = Hemisphere.SOUTHERN


@pytest.mark.parametrize(
    ("sampled", "to_come"),
    [
        (date(2026, 10, 1), 1.0),  # before the legume was off
        (date(2026, 11, 1), 1.0),
        (date(2027, 1, 31), 90 / 181),
        (date(2027, 5, 1), 0.0),
        (date(2027, 6, 1), 0.0),
    ],
)
def test_what_is_still_to_come(sampled: date, to_come: float) -> None:
    """All of it until the fallow begins, none once wheat is sown, evenly in between."""
    found = legume_before(PLAN, 2027, sampled, SOUTHERN)
    assert found is not None
    assert found.row is PEAS
    assert found.to_come == pytest.approx(to_come)


def test_no_legume_no_credit() -> None:
    """Only the crop of the year before counts."""
    assert legume_before(PLAN, 2026, date(2026, 2, 1), SOUTHERN) is None
    assert legume_before(PLAN, 2028, date(2028, 2, 1), SOUTHERN) is None
    assert legume_credit(None) == ((), ())


def test_the_published_figure() -> None:
    """18 kg N a tonne of grain, with two standard deviations of 9 (Peoples and others 2017, Soil Research 55, 600)."""
    ((part,), cautions) = legume_credit(Legume(PEAS, 1.0))
    assert (part.step.rule, part.step.amount, cautions) == ("legume-credit", -36.0, ())
    assert part.amount.low == pytest.approx(-2 * (18 + 1.96 * 9), abs=0.01)
    assert part.amount.high == pytest.approx(-2 * (18 - 1.96 * 9), abs=0.01)
    assert part.step.source is not None
    assert "Peoples" in part.step.source.author


def test_a_profile_that_saw_it_has_it() -> None:
    """Nothing is taken off twice, and it is said."""
    ((part,), cautions) = legume_credit(Legume(PEAS, 0.0))
    assert (part.step.rule, part.step.amount, cautions) == ("legume-in-profile", 0.0, ())


@pytest.mark.parametrize(
    "legume",
    [
        Legume(crop("field peas", year=2026), 1.0),
        Legume(crop("lucerne", 5.0, "hay", year=2026), 1.0),
        legume_before(PLAN, 2027, date(2026, 10, 1), Hemisphere.NORTHERN),
    ],
)
def test_without_a_figure_nothing_is_taken_off(legume: Legume) -> None:
    """No yield, no grain, or another hemisphere."""
    assert legume_credit(legume) == ((), ("legume-credit-left-out",))


@given(st.dates(date(2026, 9, 1), date(2027, 8, 1)), st.integers(0, 60))
def test_a_later_sampling_never_takes_off_more(sampled: date, later: int) -> None:
    """What is to come falls with the day, and never leaves 0 to 1."""
    first = legume_before(PLAN, 2027, sampled, SOUTHERN)
    second = legume_before(PLAN, 2027, date.fromordinal(sampled.toordinal() + later), SOUTHERN)
    assert first is not None
    assert second is not None
    assert first.to_come is not None
    assert second.to_come is not None
    assert 0 <= second.to_come <= first.to_come <= 1
