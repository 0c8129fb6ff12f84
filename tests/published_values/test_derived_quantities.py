"""Worked examples of derived quantities, each with its source; slips of the sources are noted.

- Review of salinity in PLOS ONE (2018), table 3: ECe at which crops yield 90, 75, 50 and 0 %.
- A farm file on base saturation: Ca 1471 and 4639 ppm at a capacity of 20.4 and 29.0.
- A fact sheet on soil organic carbon with sums: 1.2 % in 0-10 cm at 1.4 g/cm3.
- A lecture's worked examples: 4 meq Ca/100 g, 2 cmol Al(+)/kg as ppm.
- Tolmie and Biggs (2000) after Shaw, in Rayment and Lyons (2011), table 3.1; method 15A3.

Sums of ours, from figures that were read: those of `test_our_sums`.
"""

from __future__ import annotations

import pytest

from soilrota.guidelines.carbon import organic_matter_factor, published_factors, walkley_black_factor
from soilrota.guidelines.salinity import SaltTolerance, factor_by_clay, salt_tolerance
from soilrota.quantities import convert
from tests.agronomy.derived.bags import CATIONS, derived, result, zone


def tolerance(crop: str) -> SaltTolerance:
    """Return the tolerance of a crop of the table."""
    found = salt_tolerance(crop)
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("crop", "printed", "within"),
    [
        ("maize", (2.5, 3.8, 5.9, 10.0), 0.05),
        ("bean", (1.5, 2.3, 3.6, 6.3), 0.05),
        # The source prints the last two whole: 10.02 and 15.34.
        ("zucchini", (5.8, 7.4, 10.0, 15.0), 0.35),
        ("sunflower", (6.8, 9.8, 14.8, 24.8), 1e-9),
    ],
)
def test_salinity_of_a_yield(crop: str, printed: tuple[float, ...], within: float) -> None:
    """ECe for 90, 75, 50 and 0 % of the yield (PLOS ONE 2018, table 3)."""
    found = tolerance(crop)
    for ece, share in zip(printed, (90, 75, 50, 0), strict=True):
        exact = found.threshold + (100 - share) / found.slope
        assert exact == pytest.approx(ece, abs=within)
        assert found.relative_yield(exact) == pytest.approx(share)
    assert found.relative_yield(found.threshold) == 100
    assert found.relative_yield(100) == 0


@pytest.mark.parametrize(
    ("ppm", "capacity", "charge", "share"), [(1471, 20.4, 7.4, 36), (4639, 29.0, 23.2, 80)]
)  # fmt: skip
def test_base_saturation(ppm: float, capacity: float, charge: float, share: float) -> None:
    """A farm file on base saturation; it divides by 200, where 200.39 is exact."""
    found, _ = derived(
        [result("calcium.exchangeable", ppm, unit="mg/kg"), result("exchange-capacity.ammonium-acetate", capacity)]
    )
    assert convert(ppm, "mg/kg", "cmol(+)/kg", "calcium") == pytest.approx(charge, abs=0.06)
    assert found["calcium-share"].value == pytest.approx(share, abs=0.2)


def test_charges_as_masses() -> None:
    """A lecture: 4 meq Ca/100 g are 800 ppm (801.6), 2 cmol Al/kg 180 ppm (179.9)."""
    assert convert(4, "cmol(+)/kg", "mg/kg", "calcium") == pytest.approx(800, abs=2)
    assert convert(2, "cmol(+)/kg", "mg/kg", "aluminium") == pytest.approx(180, abs=0.2)


def test_carbon_of_a_layer() -> None:
    """A fact sheet: 1.2 % in 0-10 cm at 1.4 g/cm3 are 16.8 t/ha."""
    found, _ = derived({"organic-carbon.dry-combustion": 1.2}, zone(bulk_density=1.4))
    assert found["carbon-stock"].value == pytest.approx(16.8)


def test_a_class_edge_of_the_salinity_table() -> None:
    """Table 3.1: ECse 4.5 stands beside EC 1:5 0.45 at 20 to 40 % clay."""
    found, _ = derived({"conductivity.ec-1-5": 0.45}, zone(clay_percent=30.0))
    assert found["ece"].value == pytest.approx(4.5, abs=0.05)
    factor = factor_by_clay(30)
    assert factor is not None
    assert round(4.5 / factor.value, 2) == 0.45


def test_our_sums() -> None:
    """Chloride off sodium, a stock with gravel, relative yields, and carbon by Walkley and Black made whole."""
    salts = {"conductivity.ec-1-5": 0.5, "chloride.water-1-5": 600.0}
    found, _ = derived({**CATIONS, "sodium.exchangeable": 5.0, **salts})
    assert 5.0 - float(str(found["sodium-share"].facts["sodium_corrected"])) == pytest.approx(1.693, abs=5e-4)

    layer = [result("organic-carbon.dry-combustion", 2.0, layer=(0, 30))]
    stock, _ = derived(layer, zone(bulk_density=1.3, gravel_percent=15.0))
    assert stock["carbon-stock"].value == pytest.approx(66.3)

    for crop, ece, expected in (("wheat", 9, 78.7), ("white clover", 4, 70.0), ("perennial ryegrass", 8, 81.8)):
        assert tolerance(crop).relative_yield(ece) == pytest.approx(expected, abs=0.05)

    cookbook = next(figure for figure in published_factors() if figure.source.author == "FAO")
    assert 1.8 * cookbook.value == pytest.approx(2.39, abs=0.005)
    assert 1.8 * walkley_black_factor().value * organic_matter_factor().value == pytest.approx(4.03, abs=0.005)
    matter, _ = derived({"organic-carbon.walkley-black": 1.8}, with_organic_matter=True)
    assert matter["organic-matter"].value == pytest.approx(4.03, abs=0.005)


def test_a_nitrogen_budgets_supply() -> None:
    """Our sum: nitrate-N 8 mg/kg in 0-60 cm at 1.4 g/cm3 is 67.2 kg/ha."""
    found, _ = derived([result("nitrate-nitrogen.kcl", 8, layer=(0, 60))], zone(bulk_density=1.4))
    assert found["mineral-nitrogen"].value == pytest.approx(67.2)
