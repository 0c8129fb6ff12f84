"""Maxima of nutrients."""

from __future__ import annotations

import pytest

from soilrota.agronomy.advice.limits import clear_of_line, is_above_limit, legal_maxima, upper_limit
from tests.agronomy.advice.nutrient_cases import rating
from tests.agronomy.derived.bags import zone

UK, NI = "united-kingdom", "northern-ireland"
P = "phosphorus.olsen-by-volume"
GRASS = {"land_use": "pasture", "layer": (0, 7.5)}


@pytest.mark.parametrize(("value", "is_above"), [(25.4, False), (25.5, True), (46, True)])
def test_above_the_upper_limit_nothing_is_added(value: float, *, is_above: bool) -> None:
    """The value is rounded as its source prints bounds: 25.4 mg/l is Index 2 still."""
    found = rating(P, value, UK)
    assert is_above_limit(found.row, value) is is_above
    assert [(cap.rule, cap.amount) for cap in upper_limit(found)] == [("above-limit", 0.0)] * is_above


def test_clearly_above_the_line() -> None:
    """Nothing where chance cannot put the zone under its line; near it there is no such maximum."""
    near, clear = rating(P, 17, UK), rating(P, 24.9, UK)
    assert list(clear_of_line(near)) == []
    assert [cap.amount for cap in clear_of_line(clear)] == [0.0]


def test_the_law_of_northern_ireland() -> None:
    """Grazed grass at P Index 2-: 20 kg P2O5/ha in a year, 8.73 kg P, less what is spread already."""
    found = rating(P, 18, NI, **GRASS)
    (cap,), cautions = legal_maxima(("GB", "NIR"), zone(land_use="pasture"), found, 5.0)
    assert cap.amount == pytest.approx(20 * 0.4364 - 5, abs=0.01)
    assert "in force" in str(cap.facts["caution"])
    assert cautions == ()
    (spent,), _ = legal_maxima(("GB", "NIR"), zone(land_use="pasture"), found, 50.0)
    assert spent.amount == 0.0


def test_of_several_holdings_the_least() -> None:
    """First-cut silage at Index 0: 70 for extensive holdings, 100 for others."""
    found = rating(P, 4, NI, land_use="hay", layer=(0, 7.5))
    (cap,), _ = legal_maxima(("GB", "NIR"), zone(land_use="hay"), found, 0.0)
    assert cap.facts["kg_p2o5_ha"] == 70.0


def test_silence_of_the_law_is_no_permission() -> None:
    """Arable ground is not in the copy that was read: a caution. Elsewhere no law was read: nothing is said."""
    assert legal_maxima(("GB", "NIR"), zone(), rating(P, 18, NI), 0.0) == ((), ("legal-maximum-unknown",))
    assert legal_maxima(("GB", "ENG"), zone(), rating(P, 18, UK), 0.0) == ((), ())
