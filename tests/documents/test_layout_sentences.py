"""Reasons of layouts in words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.documents.layout_sentences import (
    PATTERN_NAMES,
    layout_sentences,
    metres_words,
    moved_sentences,
    where_sentences,
)
from soilrota.language import speaking
from soilrota.model.layout import Fact, LayoutReason, LayoutRule, MovedPoint, Pattern, ZoneLayout

EMPTY = ZoneLayout(Pattern.ZIGZAG, None, (), (), 0.0, None, 0.0, None, 0.0, None, (), ())
CASES: list[tuple[LayoutRule, dict[str, Fact], str]] = [
    (LayoutRule.TAKEN_OUT, {"places": 0, "edge_m": 10.0, "taken_share": 0.184}, "10 m from the edge; that takes 18%"),
    (
        LayoutRule.TAKEN_OUT,
        {"places": 1, "edge_m": 7.5, "taken_share": 0.002},
        "7.5 m from the edge and away from 1 place",
    ),
    (LayoutRule.TAKEN_OUT, {"places": 3, "edge_m": 10.0, "taken_share": 0.3}, "3 places to avoid; that takes 30%"),
    (LayoutRule.NOTHING_LEFT, {"edge_m": 10.0, "area_ha": 0.2}, "the zone is 0.2 ha, and 10 m"),
    (LayoutRule.IN_PIECES, {"pieces": 2, "share": 0.7}, "lies in 2 pieces; all points lie in the largest, 70%"),
    (LayoutRule.LINE_TOO_SHORT, {"longest_m": 40.2, "needed_m": 120.0}, "40 m; the cores need 120 m"),
    (LayoutRule.WALK_TOO_SHORT, {"longest_m": 40.2, "needed_m": 1240.0}, "40 m; the cores need 1.2 km"),
    (LayoutRule.TOO_NARROW, {"width_m": 14.0, "needed_m": 30.0}, "wider than 14 m; a zigzag needs 30 m"),
    (
        LayoutRule.TOO_FEW_FIT,
        {"fit": 1, "wanted": 25, "radius_m": 5.0},
        "Within 5 m of the fixed point there is room for 1 core,",
    ),
    (LayoutRule.FIXED_POINT_MOVED, {"metres": 12.0}, "12 m away"),
    (LayoutRule.OTHER_PATTERN, {"pattern": "transect", "wanted": "zigzag"}, "protocol's zigzag: straight line"),
    (LayoutRule.SPACING_REDUCED, {"asked_m": 30.0, "used_m": 18.4}, "30 m, cannot be kept here; the points are 18 m"),
    (LayoutRule.KEPT, {"points": 25}, "The same 25 points as"),
    (LayoutRule.KEPT, {"points": 1}, "The same point as"),
    (
        LayoutRule.MOVED,
        {"moved": 1, "points": 25, "metres": 4.0},
        "1 of 25 points lies elsewhere than at the sampling before, 4 m",
    ),
    (
        LayoutRule.MOVED,
        {"moved": 3, "points": 25, "metres": 14.0},
        "3 of 25 points lie elsewhere than at the sampling before, at most 14 m",
    ),
    (LayoutRule.MOVED, {"moved": 5, "points": 5, "metres": 14.0}, "All 5 points lie elsewhere"),
    (LayoutRule.MOVED, {"moved": 1, "points": 1, "metres": 14.0}, "The only point lies elsewhere"),
    (LayoutRule.ALL_NEW, {}, "all are new"),
    (
        LayoutRule.BANDED,
        {"in_row": 1, "between": 8, "row_spacing_cm": 30.0},
        "30 cm apart: 1 core in the row, 8 between",
    ),
]


@pytest.mark.parametrize(("rule", "facts", "words"), CASES)
def test_each_reason_has_its_sentence(rule: LayoutRule, facts: dict[str, Fact], words: str) -> None:
    """The facts stand in the sentence, in whole sentences, with the right plural."""
    (sentence,) = layout_sentences(replace(EMPTY, reasons=(LayoutReason(rule, facts),)))
    assert words in sentence
    assert sentence[0].isupper() or sentence[0].isdigit()
    assert sentence.endswith(".")
    assert "  " not in sentence


def test_no_rule_is_without_words() -> None:
    """Every rule is among the cases above, every pattern has a name."""
    assert {rule for rule, _, _ in CASES} == set(LayoutRule)
    assert set(PATTERN_NAMES) == {pattern.value for pattern in Pattern}


def test_moved_points_are_named_the_farthest_first() -> None:
    """A few by number; many shortened; none says nothing."""
    assert list(moved_sentences(EMPTY)) == []
    one = replace(EMPTY, moved=(MovedPoint(7, 4.04),))
    assert list(moved_sentences(one)) == ["Moved since the last sampling: point 7 (4 m)."]
    many = replace(EMPTY, moved=tuple(MovedPoint(number, 10.0 + number) for number in range(1, 11)))
    (sentence,) = moved_sentences(many, most=2)
    assert sentence == "Moved since the last sampling: points 10 (20 m), 9 (19 m) and 8 more, each less far."


def test_shares_close_to_none_or_all_are_not_rounded_away() -> None:
    """A trace is less than one per cent, nearly all more than ninety-nine."""
    said = [
        layout_sentences(replace(EMPTY, reasons=(LayoutReason(LayoutRule.IN_PIECES, {"pieces": 2, "share": share}),)))
        for share in (0.002, 0.998, 1.0)
    ]
    assert [one[0].split("largest, ")[1] for one in said] == [
        "less than 1% of it.",
        "more than 99% of it.",
        "100% of it.",
    ]


def test_a_programme_says_where_cores_come_from() -> None:
    """Points, walk and pattern first; without a pattern the reasons alone."""
    laid = replace(EMPTY, pattern=Pattern.ZIGZAG, walk_m=480.0)
    assert where_sentences(laid) == ("0 points, walked in 480 m: zigzag.",)
    assert where_sentences(EMPTY) == ()


def test_lengths_have_the_comma_of_the_language() -> None:
    """Below ten metres and from a kilometre on."""
    with speaking("es"):
        assert (metres_words(4.2), metres_words(1240)) == ("4,2 m", "1,2 km")
