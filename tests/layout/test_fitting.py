"""The wanted pattern, or the first other that fits, and what is said about it."""

from __future__ import annotations

import pytest
import shapely

from soilrota.layout.fitting import Laid
from soilrota.layout.misfit import Misfit
from soilrota.model.layout import LayoutRule, Pattern
from tests.layout.wishing import FARM, FIELD, fitting, laid, reason, rules, wish

TWO_FIELDS = shapely.union(FIELD, shapely.box(400, -100, 600, 100))
#: Left after 10 m at the edge: a strip of 80 m by 4 m.
STRIP = shapely.box(0, 0, 100, 24)


@pytest.mark.parametrize("pattern", list(Pattern))
def test_every_pattern_fits_a_field(pattern: Pattern) -> None:
    """On 12 open hectares each pattern gives its 25 points, in a walk that starts near the way in."""
    found = fitting(wish(pattern=pattern, access=FARM.degrees([(-300, -100)])[0])).lay(pattern)
    assert isinstance(found, Laid)
    assert (found.pattern, len(found.points), found.reasons) == (pattern, 25, ())
    assert found.points[0][0] <= found.points[-1][0] or pattern in {Pattern.CLUSTER, Pattern.STRATA}


def test_another_pattern_is_said() -> None:
    """25 cores 5 m apart do not fit on 80 m, nor a zigzag on 4 m: random strata are used, and all that is said."""
    layout = laid(STRIP, pattern="zigzag")
    assert layout.pattern is Pattern.STRATA
    assert rules(layout) == [
        LayoutRule.TAKEN_OUT,
        LayoutRule.TOO_NARROW,
        LayoutRule.LINE_TOO_SHORT,
        LayoutRule.OTHER_PATTERN,
    ]
    assert reason(layout, LayoutRule.OTHER_PATTERN).facts == {"pattern": "strata", "wanted": "zigzag"}
    short = reason(layout, LayoutRule.LINE_TOO_SHORT).facts
    assert (short["pattern"], short["needed_m"]) == ("transect", 120)
    assert float(short["longest_m"]) == pytest.approx(80, abs=1)


def test_the_wanted_one_misfits_with_its_facts() -> None:
    """A cluster of 25 cores half a metre apart does not fit into a corner of half a metre."""
    found = fitting(wish(shapely.box(0, 0, 20.6, 20.6))).lay(Pattern.CLUSTER)
    assert isinstance(found, Misfit)
    assert found.rule is LayoutRule.TOO_FEW_FIT


def test_pieces_are_said() -> None:
    """A straight line keeps to one of two fields: its share of what is left is said."""
    for pattern in ("transect", "zigzag"):
        facts = reason(laid(TWO_FIELDS, pattern=pattern), LayoutRule.IN_PIECES).facts
        assert facts["pieces"] == 2
        assert float(facts["share"]) == pytest.approx(580 * 180 / (580 * 180 + 180 * 180), rel=0.01)
    assert LayoutRule.IN_PIECES not in rules(laid(TWO_FIELDS, pattern="strata"))


def test_another_spacing_is_said() -> None:
    """40 m between 25 cores needs 960 m."""
    facts = reason(laid(spacing_m=40.0), LayoutRule.SPACING_REDUCED).facts
    assert facts["asked_m"] == 40.0
    assert float(facts["used_m"]) == pytest.approx(24, abs=0.5)
    assert LayoutRule.SPACING_REDUCED not in rules(laid(spacing_m=20.0))


def test_a_fixed_point_outside_what_is_left_is_moved() -> None:
    """A fixed point 4 m from the edge lies 6 m and a little from where cores may lie."""
    layout = laid(pattern="cluster", fixed_point=FARM.degrees([(0, 96)])[0])
    assert float(reason(layout, LayoutRule.FIXED_POINT_MOVED).facts["metres"]) == pytest.approx(6.0, abs=0.3)
    inside = laid(pattern="cluster", fixed_point=FARM.degrees([(0, 0)])[0])
    assert rules(inside) == [LayoutRule.TAKEN_OUT]
