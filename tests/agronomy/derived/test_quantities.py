"""Everything of one bag."""

from __future__ import annotations

import random

import pytest

from soilrota.agronomy.derived import derived_quantities
from soilrota.guidelines.cited_tables import citation
from soilrota.model.judgement import NoQuantity, Quantity
from soilrota.model.results import Result
from soilrota.quantities import Refusal, convert
from tests.agronomy.derived.bags import CATIONS, derived, results, zone

#: A bag with everything.
FULL = {
    **CATIONS, "conductivity.ec-1-5": 0.4, "chloride.water-1-5": 50.0, "organic-carbon.walkley-black": 1.8,
    "nitrogen.dry-combustion": 0.2, "nitrate-nitrogen.kcl": 12.0, "ammonium-nitrogen.kcl": 3.0,
    "phosphorus.colwell": 32.0, "sulphur.kcl-40": 7.0, "zinc.dtpa": 0.8,
}  # fmt: skip
UNITS = {
    "cmol(+)/kg": ("mmol(+)/kg", "mg/kg", "g/kg"),
    "dS/m": ("µS/cm", "mS/m"),
    "mg/kg": ("g/kg", "%"),
    "%": ("g/kg", "mg/kg"),
}


def test_a_full_bag() -> None:
    """Every quantity there is, each with its source, its inputs and its value inside its interval."""
    found, missing = derived(FULL, crops=["wheat"], with_organic_matter=True)
    assert missing == {}
    assert {one.code for one in found.values()} == {
        "exchange-capacity", "calcium-share", "magnesium-share", "potassium-share", "sodium-share", "aluminium-share",
        "calcium-magnesium-ratio", "magnesium-potassium-ratio", "ece", "relative-yield",
        "carbon-stock", "organic-matter", "carbon-nitrogen-ratio",
        "mineral-nitrogen", "nutrient-stock",
    }  # fmt: skip
    for one in found.values():
        assert one.low < one.value < one.high or one.code == "relative-yield"
        assert one.source is not None
        assert citation(one.source)
        assert one.inputs
        assert (one.top_cm, one.bottom_cm) == (0, 10)


def in_another_unit(one: Result, rng: random.Random) -> Result:
    """Return the same result in some other unit."""
    from dataclasses import replace

    unit = rng.choice(UNITS[one.unit])
    value = convert(one.value, one.unit, unit, one.analyte)
    assert not isinstance(value, Refusal)
    return replace(one, value=value, unit=unit)


@pytest.mark.parametrize("seed", range(8))
def test_units_never_change_a_quantity(seed: int) -> None:
    """Any mixture of units gives the same values, intervals, statuses and cautions."""
    rng = random.Random(seed)
    plain = results(FULL)
    same, _ = derived_quantities(plain, zone(), crops=["wheat"])
    other, _ = derived_quantities([in_another_unit(one, rng) for one in plain], zone(), crops=["wheat"])
    assert len(same) == len(other)
    for one, again in zip(same, other, strict=True):
        assert (again.code, again.unit, again.status, again.cautions) == (one.code, one.unit, one.status, one.cautions)
        assert (again.low, again.value, again.high) == pytest.approx((one.low, one.value, one.high), rel=1e-9)


def test_order_of_the_rows_does_not_matter() -> None:
    """The same quantities, to the digit."""
    plain = results(FULL)
    shuffled = random.Random(2).sample(plain, len(plain))
    key = _key
    for listed in zip(derived_quantities(plain, zone()), derived_quantities(shuffled, zone()), strict=True):
        first, second = (sorted(part, key=key) for part in listed)
        assert first == second


def _key(one: Quantity | NoQuantity) -> tuple[str, str]:
    """Return what orders quantities."""
    return one.code, str(one.facts.get("analysis", "")) if isinstance(one, Quantity) else ""


def test_a_spread_of_ones_own() -> None:
    """Without any doubt in the results only that of the figures is left."""
    found, _ = derived_quantities(results(FULL), zone(bulk_density=1.3), spread=lambda _: 0.0)
    by_code = {one.code: one for one in found}
    capacity = by_code["exchange-capacity"]
    assert (capacity.low, capacity.high) == (capacity.value, capacity.value)
    nitrogen = by_code["mineral-nitrogen"]
    assert (nitrogen.low / nitrogen.value, nitrogen.high / nitrogen.value) == pytest.approx((0.9, 1.1))


def test_an_empty_bag() -> None:
    """Nothing of nothing."""
    assert derived_quantities([], zone()) == ((), ())
