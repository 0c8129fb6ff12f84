"""Mineral nitrogen of layers and profiles."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import numpy as np
import pytest

from soilrota.agronomy.derived import profile_nitrogen
from soilrota.model.judgement import NoQuantity, Quantity, WhyNot
from tests.agronomy.derived.bags import derived, results, zone

NITRATE, AMMONIUM = "nitrate-nitrogen.kcl", "ammonium-nitrogen.kcl"
FIELD = zone(bulk_density=1.4)


def profile(*layers: tuple[tuple[float, float], dict[str, Any]], of: Any = FIELD) -> Quantity | NoQuantity | None:
    """Return the nitrogen of layers together."""
    return profile_nitrogen([results(values, layer) for layer, values in layers], of)


def test_a_layer() -> None:
    """Nitrate and ammonium are added; nitrate alone says so."""
    found, _ = derived({NITRATE: 20.0, AMMONIUM: 5.0}, FIELD)
    both = found["mineral-nitrogen"]
    assert (both.value, both.unit) == (pytest.approx(35), "kg/ha")
    assert (both.facts["forms"], both.cautions) == (("nitrate-nitrogen", "ammonium-nitrogen"), ())
    alone = derived({NITRATE: 20.0}, FIELD)[0]["mineral-nitrogen"]
    assert (alone.value, alone.cautions) == (pytest.approx(28), ("nitrate-alone",))
    _, missing = derived({AMMONIUM: 5.0}, FIELD)
    assert missing["mineral-nitrogen"].refused.facts == {"needs": (NITRATE,)}


def test_a_profile_is_the_sum_of_its_layers() -> None:
    """In any order of the bags; a layer without ammonium leaves nitrate alone everywhere."""
    top, middle, low = ((0, 10), {NITRATE: 20.0}), ((10, 30), {NITRATE: 8.0, AMMONIUM: 2.0}), ((30, 60), {NITRATE: 4.0})
    found = profile(low, top, middle)
    assert isinstance(found, Quantity)
    assert found.value == pytest.approx(1.4 * (20 + 8 * 2 + 4 * 3))
    assert (found.code, found.top_cm, found.bottom_cm) == ("profile-nitrogen", 0, 60)
    assert found.facts["layers"] == ("0-10", "10-30", "30-60")
    assert found.facts["layer_kg_ha"] == ("28.0", "22.4", "16.8")
    assert (found.facts["bulk_density"], "depth_cm" in found.facts) == (1.4, False)
    assert found.cautions == ("nitrate-alone", "topsoil-property")
    assert len(found.inputs) == 3


def test_a_density_errs_in_all_layers_together() -> None:
    """Ends against draws with one density for all: wider than if each layer erred on its own."""
    layers = [((at * 10.0, at * 10.0 + 10), {NITRATE: 10.0}) for at in range(6)]
    found = profile(*layers, of=zone())
    assert isinstance(found, Quantity)
    rng = np.random.default_rng(7)
    nitrate = 10 * np.exp(np.sqrt(np.log1p(0.119**2)) * rng.standard_normal((6, 200_000)))
    normal = rng.standard_normal(200_000)
    spread = np.where(normal < 0, -np.log(0.8), np.log(1.2)) / 1.959964
    low, high = np.percentile(nitrate.sum(axis=0) * 1.43 * np.exp(spread * normal), [2.5, 97.5])
    assert found.low == pytest.approx(low, abs=0.05 * (high - low))
    assert found.high == pytest.approx(high, abs=0.05 * (high - low))


def test_densities_that_follow_each_layers_carbon() -> None:
    """Without texture each layer has its own."""
    carbon = "organic-carbon.dry-combustion"
    found = profile(
        ((0, 10), {NITRATE: 10.0, carbon: 3.0}), ((10, 20), {NITRATE: 10.0, carbon: 1.5}), of=zone(texture="")
    )
    assert isinstance(found, Quantity)
    at_3, at_1_5 = (1.310 + 1.229 + 1.359 + 1.174) / 4, (1.465 + 1.389 + 1.475 + 1.413) / 4
    assert found.value == pytest.approx(10 * (at_3 + at_1_5), abs=0.01)
    assert "bulk_density" not in found.facts
    assert found.facts["bulk_density_from"] == "organic-matter"


def test_layers_that_do_not_join() -> None:
    """A gap or an overlap is no profile."""
    for second, reason in (((20, 30), "layers-apart"), ((5, 20), "layers-overlap")):
        found = profile(((0, 10), {NITRATE: 20.0}), (second, {NITRATE: 8.0}))
        assert isinstance(found, NoQuantity)
        assert (found.refused.why, found.refused.facts["reason"]) == (WhyNot.RULE_VOID, reason)


def test_censored_layers() -> None:
    """A layer below the limit widens the sum by what it may hold; one above a limit leaves none."""
    found = profile(((0, 10), {NITRATE: "<2"}), ((10, 20), {NITRATE: "<2"}))
    assert isinstance(found, Quantity)
    assert (found.low, found.value) == (0, pytest.approx(1.4 * 2))
    assert found.high == pytest.approx(1.4 * 4 * 1.1)
    above = profile(((0, 10), {NITRATE: ">90"}), ((10, 20), {NITRATE: 2.0}))
    assert isinstance(above, NoQuantity)
    assert above.refused.why is WhyNot.CENSORED
    heavy = profile(((0, 10), {NITRATE: 2.0}), of=zone(texture=""))
    assert isinstance(heavy, NoQuantity)
    assert heavy.refused.facts == {"needs": ("bulk-density", "texture")}


def test_no_nitrogen_and_two_days() -> None:
    """Silence; two days are a fault of the program."""
    assert profile(((0, 10), {"ph.water": 6.0})) is None
    first, second = results({NITRATE: 2.0}), results({NITRATE: 2.0}, (10, 20))
    later = [replace(one, sampled=date(2027, 3, 1)) for one in second]
    with pytest.raises(ValueError, match="one day"):
        profile_nitrogen([first, later], FIELD)
