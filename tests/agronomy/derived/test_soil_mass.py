"""The fine earth of a layer."""

from __future__ import annotations

import pytest

from soilrota.agronomy.derived.soil_mass import SoilMass, kilograms_per_hectare, soil_mass
from soilrota.model.guideline import Status
from soilrota.model.judgement import Refused, WhyNot
from soilrota.quantities import Soil, convert
from tests.agronomy.derived.bags import bag

PH = {"ph.water": 6.0}


def mass(values: dict[str, float] = PH, layer: tuple[float, float] = (0, 10), **zone: object) -> SoilMass:
    """Return the fine earth of a bag, which can be told."""
    found = soil_mass(bag(values, layer, **zone))
    assert isinstance(found, SoilMass)
    return found


def test_which_bulk_density() -> None:
    """Measured before typical of the texture, before organic matter; the doubt is wider where nobody measured."""
    measured = mass(bulk_density=1.3)
    assert (measured.density.value, measured.facts["bulk_density_from"]) == (1.3, "measured")
    typical = mass(texture="loam")
    assert (typical.density.value, typical.facts["bulk_density_from"]) == (1.43, "texture")
    assert typical.facts["bulk_density_source"] == (
        "Typical bulk density by soil texture class, general web page that names no source"
    )
    matter = mass({"organic-carbon.dry-combustion": 1.5}, texture="")
    assert matter.facts["bulk_density_from"] == "organic-matter"
    assert matter.density.value == pytest.approx((1.465 + 1.389 + 1.475 + 1.413) / 4, abs=5e-4)
    for found, share in ((measured, 0.1), (typical, 0.2), (matter, 0.2)):
        assert found.density.low == pytest.approx(found.density.value * (1 - share))


def test_no_bulk_density() -> None:
    """Without texture and carbon nothing tells it; peat by its carbon alone is beyond the formulas."""
    lacking = Refused(WhyNot.NOT_MEASURED, {"needs": ("bulk-density", "texture")})
    assert soil_mass(bag(PH, texture="")) == lacking
    assert soil_mass(bag({"organic-matter.loss-on-ignition": 30}, texture="")) == lacking
    assert mass(texture="peat").status is Status.UNVERIFIED


def test_gravel() -> None:
    """None is taken off where it is not known, and that is said; the term is from memory."""
    unknown, none, some = mass(), mass(gravel_percent=0.0), mass(gravel_percent=15.0)
    assert (unknown.facts["gravel_from"], none.facts["gravel_from"]) == ("taken-as-none", "stated")
    assert (unknown.status, none.status, some.status) == (Status.VERIFIED, Status.VERIFIED, Status.UNVERIFIED)
    assert (unknown.gravel.value, some.gravel.value) == (0, 0.15)
    assert some.gravel.low == pytest.approx(0.075)


def test_the_zone_speaks_of_its_topsoil() -> None:
    """A lower layer is reckoned with the topsoil's figures, and carries the caution."""
    assert mass().cautions == ()
    lower = mass(layer=(10, 30))
    assert (lower.cautions, lower.depth_cm, lower.facts["depth_cm"]) == (("topsoil-property",), 20, 20)


def test_kilograms_per_hectare() -> None:
    """1 mg/kg in 0-10 cm at 1.0, 1.3 and 1.5 g/cm3 is 1.0, 1.3 and 1.5 kg/ha; and what the units' library says."""
    for density in (1.0, 1.3, 1.5):
        assert kilograms_per_hectare(1, density, 0, 10) == pytest.approx(density)
        by_units = convert(7, "mg/kg", "kg/ha", "phosphorus", soil=Soil(bulk_density=density, depth_cm=10))
        assert kilograms_per_hectare(7, density, 0, 10) == pytest.approx(by_units)
    assert kilograms_per_hectare(10, 1.3, 0.5, 10) == pytest.approx(6.5)
