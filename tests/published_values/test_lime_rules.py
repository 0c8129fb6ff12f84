"""Lime by pH, soil, buffer and acidity: published tables and examples, each with its source."""

from __future__ import annotations

import pytest

from soilrota.guidelines.lime_buffers import (
    north_carolina_acidity,
    north_carolina_credit,
    north_carolina_lime,
    oregon_lime,
    penn_state_lime,
    penn_state_turf,
)
from soilrota.guidelines.lime_rules import dressings, lime_nv, lime_targets, victoria_lime, victoria_rise
from soilrota.model.guideline import Status

#: Oregon State University Extension, EM 9585 (October 2025), Sikora buffer: buffer pH, then short tons/ac of lime of
#: score 100 for 6 inches, to pH 5.6, 6.0, 6.4, 6.8 and 7.2. An empty line is the step between the two fitted branches.
OREGON = """
6.9 0.0 0.0 0.5 0.8 1.0
6.8 0.0 0.4 0.8 1.2 1.6
6.7 0.2 0.7 1.1 1.6 2.2
6.6 0.4 0.9 1.5 2.1 2.7
6.5 0.7 1.2 1.8 2.5 3.3
6.4 0.9 1.5 2.1 2.9 3.8
6.3 1.1 1.7 2.5 3.3 4.4
6.2 1.3 2.0 2.8 3.7 4.9
6.1 1.5 2.3 3.1 4.2 5.5
6.0 1.7 2.5 3.5 4.6 6.0
5.9 1.9 2.8 3.8 5.0 6.6
5.8 2.2 3.1 4.1 5.4 7.1

5.7 2.7 4.0 5.5 7.2 9.9
5.6 3.1 4.5 6.2 8.3 11.4
5.5 3.5 5.1 7.0 9.3 12.9
5.4 3.8 5.6 7.7 10.3 14.3
5.3 4.2 6.2 8.5 11.3 15.8
5.2 4.6 6.7 9.2 12.3 17.3
5.1 5.0 7.3 10.0 13 18.7
5.0 5.3 7.8 10.7 14 20.2
4.9 5.7 8.4 11.5 15 21.7
4.8 6.1 8.9 12.2 16.3 23.2
"""
OREGON_TARGETS = (5.6, 6.0, 6.4, 6.8, 7.2)
#: AHDB, Soil pH and liming recommendations for arable and grass systems: optimum and target on mineral, peaty, organic.
UNITED_KINGDOM = {
    "uk-arable": ((6.5, 6.7), (5.8, 6.0), (6.0, 6.2)),
    "uk-ley-barley": ((6.2, 6.4), (5.5, 5.7), (5.7, 5.9)),
    "uk-ley-wheat": ((6.0, 6.2), (5.3, 5.5), (5.5, 5.7)),
    "uk-grass": ((6.0, 6.2), (5.3, 5.5), (5.5, 5.7)),
}


@pytest.mark.parametrize("line", [line for line in OREGON.splitlines() if line])
def test_oregon_table(line: str) -> None:
    """Every printed cell comes out as it is printed."""
    buffer, *rates = line.split()
    for target, rate in zip(OREGON_TARGETS, rates, strict=True):
        assert oregon_lime(float(buffer), target) == float(rate)


def test_oregon_between_lines() -> None:
    """Between two lines of one branch on the straight line; in the step, outside, or for another target nothing.

    The two branches do not meet: one line through both would be 0.15 tons off at the step, to pH 5.6.
    """
    assert oregon_lime(6.0, 5.6) == 1.7  # the source's own example
    assert oregon_lime(6.05, 5.6) == pytest.approx(1.6)
    assert oregon_lime(5.25, 7.2) == pytest.approx((15.8 + 17.3) / 2)
    for buffer, target in ((5.75, 6.0), (5.71, 6.0), (7.0, 6.0), (4.7, 6.0), (6.0, 6.5)):
        assert oregon_lime(buffer, target) is None
    assert oregon_lime(5.7, 7.2) - oregon_lime(5.8, 7.2) > 2 * (7.1 - 6.6)  # type: ignore[operator]


def test_north_carolina() -> None:
    """From pH 5.0 to 6.0 at an acidity of 1.2: the source prints 0.76 tons/ac, by rounding on the way; it is 0.75.

    North Carolina Department of Agriculture and Consumer Services, lime from buffer pH.
    """
    assert north_carolina_lime(5.0, 6.0, 1.2) == pytest.approx(0.76, abs=0.011)
    assert north_carolina_lime(5.0, 6.0, 1.2) == pytest.approx(0.75)
    assert north_carolina_acidity(6.3) == pytest.approx(1.2)
    assert north_carolina_credit(1.0, 5, "mineral") == pytest.approx(0.6)  # 8 % a month
    assert north_carolina_credit(1.0, 5, "organic") == pytest.approx(0.2)  # 16 % a month
    assert north_carolina_credit(1.0, 5, "mineral-organic") == pytest.approx(0.2)


@pytest.mark.parametrize("ph", [6.0, 6.3, 6.6, 7.4])
def test_north_carolina_divides_by_nothing(ph: float) -> None:
    """At the target, at 6.6 (where the rule would divide by nought) and above, no lime; credit never turns it round."""
    assert north_carolina_lime(ph, 6.0, 1.2) == 0
    assert north_carolina_lime(ph, 6.8, 1.2) == pytest.approx(1.2 * (6.8 - ph) / (6.6 - ph) if ph < 6.6 else 0)
    assert north_carolina_lime(5.0, 6.0, 1.2, credit=3) == 0


def test_penn_state_field() -> None:
    """1000 x acidity to 7.0; 840 x to 6.5 above 4, else 2000 below 6.5, else nothing (Penn State Agronomy Guide)."""
    assert penn_state_lime(9.0, 7.0, 5.0) == 9000
    assert penn_state_lime(4.1, 6.5, 5.0) == pytest.approx(3444)
    assert penn_state_lime(3.9, 6.5, 6.4) == 2000
    assert penn_state_lime(4.0, 6.5, 6.4) == 2000  # the source leaves 4.0 itself open
    assert penn_state_lime(3.9, 6.5, 6.5) == 0
    assert penn_state_lime(9.0, 6.0, 5.0) is None


@pytest.mark.parametrize(
    ("acidity", "rates"),
    [
        (9.0, (210, 160, 110)),
        (4.6, (110, 70, 50)),
        (12.3, (280, 230, 180)),
        (20.0, (460, 390, 320)),
        (25.7, (600, 530, 410)),
    ],
)
def test_penn_state_turf(acidity: float, rates: tuple[float, ...]) -> None:
    """Goals 7.0, 6.5 and 6.0 in lb/1000 ft2 (Penn State, lime recommendations for turf): the table alone.

    The field rule scaled to 1000 ft2 gives 207 and 174 for an acidity of 9.0, since the slice is thinner; so it is no
    stand-in for the table.
    """
    assert tuple(penn_state_turf(acidity, goal) for goal in (7.0, 6.5, 6.0)) == rates
    assert penn_state_turf(acidity + 0.05, 7.0) is None
    assert penn_state_turf(acidity, 6.2) is None


def test_south_west_victoria() -> None:
    """From pH 4.5 to 5.5 over 10 cm: about 3 t/ha on clay loam, about 2 t/ha on sandy loam (Southern Farming Systems).

    The page prints rises of 26, 37, 57 and 67 without their point; read as 0.26 and so on they give its own examples.
    """
    clay_loam, sandy_loam = victoria_lime("clay-loam", 1.0), victoria_lime("sandy-loam", 1.0)
    assert clay_loam == pytest.approx(3, abs=0.5)
    assert sandy_loam == pytest.approx(2, abs=0.5)
    rises = [victoria_rise(texture) for texture in ("medium-clay", "clay-loam", "sandy-loam", "sand")]
    assert rises == [0.26, 0.37, 0.57, 0.67]
    assert [round(1 / rise, 2) for rise in rises if rise] == [3.85, 2.70, 1.75, 1.49]
    assert victoria_lime("sand", 0.67, organic_carbon=1.3) == pytest.approx(1.4)
    assert victoria_lime("sand", 0.67, organic_carbon=1.2) == pytest.approx(1.0)


@pytest.mark.parametrize(("system", "pairs"), UNITED_KINGDOM.items())
def test_united_kingdom_targets(system: str, pairs: tuple[tuple[float, float], ...]) -> None:
    """Optimum and target of each system; the target lies 0.2 above (AHDB)."""
    for soil, (optimum, target) in zip(("mineral", "peaty", "organic"), pairs, strict=True):
        row = lime_targets()[f"{system}-{soil}"]
        assert (row.act_below, row.target, row.method) == (optimum, target, "water")
        assert target == pytest.approx(optimum + 0.2)
        assert row.cited.status is Status.VERIFIED


@pytest.mark.parametrize(
    ("row", "method", "below", "target"),
    [
        ("wa-topsoil", "cacl2", 5.5, 5.5),  # Western Australia, Developing a liming program
        ("wa-subsurface", "cacl2", 4.8, 4.8),
        ("vic-south-west", "cacl2", 5.0, None),  # Corangamite CMA, Brown Book, chapter 22
        ("vic-floor-cacl2", "cacl2", 4.5, None),  # Agriculture Victoria, Understanding soil tests for pastures
        ("vic-floor-water", "water", 5.3, None),
        ("ie-grass-mineral", "water", 6.3, 6.3),  # Irish Farmers Monthly, Forage guide 2018, page 27
        ("ie-grass-peaty", "water", 5.5, 5.5),
    ],
)
def test_other_targets(row: str, method: str, below: float, target: float | None) -> None:
    """Where liming starts and what it aims at are two figures; a source that prints one has one."""
    found = lime_targets()[row]
    assert (found.method, found.act_below, found.target, found.cited.status) == (method, below, target, "verified")


def test_dressings() -> None:
    """At most 7 t/ha on grass and 10 on arable land in one, at least 2; 20 and 15 cm; neutralising value 54.

    Agricultural Lime Association, pH value and lime requirements; Ireland 7.5 t/ha (Forage guide 2018);
    South-West Victoria 2 t/ha on sand and 4 on clay loam before it is worked in (Southern Farming Systems).
    """
    rows = dressings()
    assert [(rows[name].least, rows[name].most, rows[name].depth_cm) for name in ("uk-arable", "uk-grass")] == [
        (2, 10, 20),
        (2, 7, 15),
    ]
    assert lime_nv("uk-factor") == 54
    assert [rows[name].most for name in ("ie-grass", "vic-sand", "vic-clay-loam")] == [7.5, 2, 4]
