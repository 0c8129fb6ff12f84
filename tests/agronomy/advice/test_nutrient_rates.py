"""A season's rate by each rule: what the rule adds, what is given back."""

from __future__ import annotations

import pytest

from soilrota.agronomy.advice.crop_plan import Harvest
from soilrota.agronomy.advice.nutrient_rates import Asked, Rate, rate_of
from soilrota.agronomy.advice.removal import to_element
from soilrota.guidelines.nutrient_regions import region_of
from soilrota.guidelines.sets import guideline_sets
from soilrota.model.advice import Input
from soilrota.model.judgement import Rating, Refused, WhyNot
from tests.agronomy.advice.nutrient_cases import crop, rating

OLSEN, K_VOLUME = "phosphorus.olsen-by-volume", "potassium.ammonium-nitrate-by-volume"


def season(nutrient: Input, of: Rating, *names: str, removal: float = 20.0) -> tuple[float, float]:
    """Return the first season's rate at the result."""
    found = _rate(nutrient, of, *names)
    assert isinstance(found, Rate), found
    return found.seasons[0](Asked(of.result.value, of.critical or 0.0, found.figure.value, removal))


def _rate(nutrient: Input, of: Rating, *names: str, years: int = 4) -> Rate | Refused:
    """Return the rate of the region of a rating, for one harvest."""
    region = region_of(guideline_sets()[of.set], "", "")
    assert region is not None
    harvest = Harvest(2027, tuple(crop(name, 5.0) for name in names))
    return rate_of(region.rules[nutrient], of, nutrient, harvests=(harvest,), years=years, editions=region.editions)


@pytest.mark.parametrize(("value", "oxide", "back"), [(5, 60, 20), (12, 30, 20), (20, 0, 20), (30, 0, 0), (200, 0, 0)])
def test_by_the_index(value: float, oxide: float, back: float) -> None:
    """60, 30 and nought beyond the harvest's share; nothing at all from Index 3 on, above the printed ones too."""
    added, given = season(Input.PHOSPHORUS, rating(OLSEN, value, "united-kingdom"))
    assert added == pytest.approx(to_element(oxide, "P2O5", Input.PHOSPHORUS))
    assert given == back


@pytest.mark.parametrize(("value", "printed", "back"), [(5, 100, 0), (13, 75, 0), (18, 0, 20), (25, 0, 0), (40, 0, 0)])
def test_by_the_class(value: float, printed: float, back: float) -> None:
    """Iowa (2013), phosphate for corn: 100, 75, the harvest's share, nothing."""
    of = rating("phosphorus.bray-1", value, "iowa-2013", crops=("corn",))
    added, given = season(Input.PHOSPHORUS, of, "corn")
    assert added == pytest.approx(to_element(printed, "P2O5", Input.PHOSPHORUS, per_acre=True))
    assert given == back


def test_a_crop_without_a_rate() -> None:
    """The table prints none for oats."""
    of = rating("phosphorus.bray-1", 13, "iowa-2013", crops=("corn",))
    found = _rate(Input.PHOSPHORUS, of, "oats")
    assert isinstance(found, Refused)
    assert found.facts["reason"] == "crop-without-rate"


def test_potash_by_exchange_capacity() -> None:
    """Tri-State: (critical - test) x (1 + 0.05 CEC) + 20 lb K2O/ac: at CEC 10, critical 100, test 80: 50 lb."""
    of = rating("potassium.ammonium-acetate", 80, "tri-state-1995", crops=("corn",), exchange_capacity=10.0)
    added, given = season(Input.POTASSIUM, of, "corn")
    assert added == pytest.approx(to_element(20 * 1.5 + 20, "K2O", Input.POTASSIUM, per_acre=True))
    assert given == 20.0


def test_potash_without_capacity() -> None:
    """The formula follows the exchange capacity."""
    of = rating("potassium.ammonium-acetate", 80, "tri-state-1995", crops=("corn",), exchange_capacity=10.0)
    bare = Rating(*(getattr(of, name) for name in of.__slots__ if name != "covariates"))
    found = _rate(Input.POTASSIUM, bare, "corn")
    assert isinstance(found, Refused)
    assert found.why is WhyNot.COVARIATE_MISSING


def test_other_years_in_proportion() -> None:
    """The formula builds up over four years: over two, twice as much a year."""
    of = rating("phosphorus.bray-1", 10, "tri-state-1995", crops=("corn",))
    four, two = (_rate(Input.PHOSPHORUS, of, "corn", years=years) for years in (4, 2))
    assert isinstance(four, Rate)
    assert isinstance(two, Rate)
    assert two.figure.value == pytest.approx(2 * four.figure.value)
    assert four.figure.value == pytest.approx(to_element(5, "P2O5", Input.PHOSPHORUS, per_acre=True))


def test_a_test_without_a_figure_gives_the_harvest_back() -> None:
    """Nothing is added for the soil, and a caution says so where it lacks."""
    of = rating(K_VOLUME, 90, "united-kingdom")
    region = region_of(guideline_sets()["southern-australia-pasture"], "", "")
    assert region is not None
    found = rate_of(
        region.rules[Input.POTASSIUM], of, Input.POTASSIUM, harvests=(Harvest(2027, ()),), years=4, editions=()
    )
    assert isinstance(found, Rate)
    assert found.seasons[0](Asked(90, 121, 0, 12.0)) == (0.0, 12.0)
    assert found.cautions == ("build-up-not-sized",)
