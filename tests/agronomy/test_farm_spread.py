"""Zones against the farm."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from soilrota.agronomy.doubt import Evidence, doubt_of
from soilrota.agronomy.farm_spread import farm_spreads
from soilrota.agronomy.rating import rate
from soilrota.model.client import Farm
from soilrota.model.guideline import GuidelineRow
from soilrota.model.judgement import FarmSpread, Rating, ZoneJudgement
from soilrota.model.results import Result
from soilrota.problems import Place
from tests.agronomy.small_sets import ground, made_set, row
from tests.results.making import DAY, result
from tests.timing.test_tasks import zone

P, PH = "phosphorus.colwell", "ph.cacl2"
LINE = row()
AREAS = {"a": 10.0, "b": 30.0, "c": 60.0}
ZONES = tuple(replace(zone(name), area_ha=area) for name, area in AREAS.items())
FARM = Farm("home", "Home", "", None, None, (), ZONES, Place("client.yaml", 8))


def judgement(
    *results: Result, by: GuidelineRow | None = LINE, protocol: str = "topsoil", later: int = 0
) -> ZoneJudgement:
    """Return the judgement of a zone's results under one row, or none."""
    rows = (by,) if by else ()
    judged = [rate(one, [made_set(*rows)], ground(), doubt_of(one, Evidence())) for one in results]
    rated = tuple(one for one in judged if isinstance(one, Rating))
    unrated = tuple(one for one in judged if not isinstance(one, Rating))
    return ZoneJudgement(
        "home", results[0].zone, protocol, DAY + timedelta(later), "made", rated, unrated, (), (), ()
    )  # fmt: skip


def spread(*judgements: ZoneJudgement) -> FarmSpread:
    """Return the one spread of a farm."""
    (found,) = farm_spreads(FARM, judgements)
    return found


def test_a_mean_that_hides_a_zone() -> None:
    """10 ha at 12, 30 ha at 40 and 60 ha at 50: the mean of 43.2 lies over the line of 30, the small zone does not."""
    found = spread(*(judgement(result(P, value, zone=name)) for name, value in (("a", 12), ("b", 40), ("c", 50))))
    assert found.mean == pytest.approx(43.2)
    assert (found.lowest, found.highest) == (("a", 12), ("c", 50))
    assert (found.below, found.above, found.mean_below) == (("a",), ("b", "c"), False)
    assert (found.farm, found.analyte, found.method, found.bottom_cm) == ("home", "phosphorus", "colwell", 10)


def test_no_mean_of_ph_nor_of_what_is_censored() -> None:
    """The zones stand beside each other all the same."""
    acid = row(analyte="ph", method="cacl2", unit="pH", critical=5.0)
    found = spread(*(judgement(result(PH, value, zone=name), by=acid) for name, value in (("a", 4.6), ("b", 5.4))))
    assert (found.mean, found.mean_below, found.below, found.above) == (None, None, ("a",), ("b",))
    censored = spread(judgement(result(P, "<5", zone="a")), judgement(result(P, 40, zone="b")))
    assert (censored.mean, censored.lowest, censored.below) == (None, ("a", 5), ("a",))


def test_zones_with_other_lines() -> None:
    """Where zones share no line, or one has none, nothing is said of the mean's side."""
    low, high = row(critical=20.0), row(critical=40.0)
    found = spread(judgement(result(P, 30, zone="a"), by=low), judgement(result(P, 30, zone="b"), by=high))
    assert (found.below, found.above, found.mean_below, found.mean) == (("b",), ("a",), None, 30)
    partly = spread(judgement(result(P, 10, zone="a")), judgement(result(P, 12, zone="b"), by=None))
    assert (partly.mean, partly.below, partly.mean_below) == (pytest.approx(11.5), ("a",), None)
    assert spread(judgement(result(P, 10, zone="a")), judgement(result(P, 12, zone="b"))).mean_below is True


def test_what_makes_no_spread() -> None:
    """One zone; zones of other analyses or layers; a farm's other zones; barred samples."""
    assert farm_spreads(FARM, [judgement(result(P, 10, zone="a"))]) == ()
    other = judgement(result(P, 10, zone="b", bottom_cm=15))
    assert farm_spreads(FARM, [judgement(result(P, 10, zone="a")), other]) == ()
    away = replace(judgement(result(P, 10, zone="b")), farm="away")
    assert farm_spreads(FARM, [judgement(result(P, 10, zone="a")), away]) == ()
    found = rate(result(P, 9, zone="b"), [made_set(LINE)], ground(), doubt_of(result(P, 9), Evidence()), ("too-few",))
    assert not isinstance(found, Rating)
    barred = replace(judgement(result(P, 9, zone="b")), ratings=(), unrated=(found,))
    assert farm_spreads(FARM, [judgement(result(P, 10, zone="a")), barred]) == ()


def test_bags_and_protocols_of_one_zone() -> None:
    """Two bags count as their mean; of two protocols the later sampling counts."""
    two = judgement(result(P, 10, zone="a", bag="A"), result(P, 20, zone="a", bag="B"))
    later = judgement(result(P, 99, zone="a"), by=None, protocol="again", later=5)
    other = judgement(result(P, 40, zone="b"))
    assert spread(two, other).lowest == ("a", 15)
    found = spread(later, two, other)
    assert (found.highest, found.below, found.above) == (("a", 99), (), ("b",))
