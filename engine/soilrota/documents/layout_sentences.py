"""Why a layout is as it is, in sentences: for the field pack and for the programme."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from soilrota.documents.dates import counted
from soilrota.model.layout import LayoutReason, LayoutRule, ZoneLayout

#: The patterns as nouns.
PATTERN_NAMES = {
    "transect": "straight line",
    "zigzag": "zigzag",
    "cluster": "cluster round a fixed point",
    "strata": "one core in each of many equal parts",
}
_KILOMETRE = 1000
_CLOSE_M = 10
_ONE_PER_CENT = 0.01


def metres_words(metres: float) -> str:
    """Return a distance [m] as people say it: one decimal below ten metres, kilometres from one on.

    >>> metres_words(4.25), metres_words(23.4), metres_words(1240), metres_words(0)
    ('4.2 m', '23 m', '1.2 km', '0 m')
    """
    if metres < _CLOSE_M:
        return f"{_trimmed(metres)} m"
    return f"{metres:.0f} m" if round(metres) < _KILOMETRE else f"{_trimmed(metres / _KILOMETRE)} km"


def layout_sentences(layout: ZoneLayout) -> tuple[str, ...]:
    """Return the reasons of a layout in words, in their order, a sentence or two each."""
    return tuple(_SENTENCES[reason.rule](_Facts(reason)) for reason in layout.reasons)


def where_sentences(layout: ZoneLayout) -> tuple[str, ...]:
    """Return where the cores of a zone come from, in the few sentences of a programme."""
    reasons = layout_sentences(layout)
    if layout.pattern is None:
        return reasons
    name = PATTERN_NAMES[layout.pattern]
    points, walk = counted(len(layout.points), "point", "points"), metres_words(layout.walk_m)
    return (f"{points}, walked in {walk}: {name}.", *reasons, *moved_sentences(layout))


def moved_sentences(layout: ZoneLayout, most: int = 8) -> Iterator[str]:
    """Yield which points lie elsewhere than before, the farthest first, and how far; at most so many by number."""
    if not layout.moved:
        return
    moved = sorted(layout.moved, key=lambda one: (-one.metres, one.number))
    named = ", ".join(f"{one.number} ({metres_words(one.metres)})" for one in moved[:most])
    rest = f" and {len(moved) - most} more, each less far" if len(moved) > most else ""
    yield f"Moved since the last sampling: {'point' if len(moved) == 1 else 'points'} {named}{rest}."


class _Facts:
    """The facts of a reason, in words."""

    def __init__(self, reason: LayoutReason) -> None:
        self._facts: dict[str, Any] = dict(reason.facts)

    def metres(self, name: str) -> str:
        """Return a fact that is a distance [m]."""
        return metres_words(float(self._facts[name]))

    def share(self, name: str) -> str:
        """Return a fact that is a share [-] as per cent."""
        share = float(self._facts[name])
        if 0 < share < _ONE_PER_CENT:
            return "less than 1%"
        return "more than 99%" if 1 - _ONE_PER_CENT < share < 1 else f"{share:.0%}"

    def count(self, name: str) -> int:
        """Return a fact that is a number of things."""
        return int(self._facts[name])

    def figure(self, name: str) -> str:
        """Return a fact that is a number, with at most one decimal."""
        return _trimmed(float(self._facts[name]))

    def pattern(self, name: str) -> str:
        """Return a fact that is a pattern, as a noun."""
        return PATTERN_NAMES[str(self._facts[name])]


def _trimmed(value: float) -> str:
    """Return a number with one decimal, or none where it is whole."""
    return f"{value:.1f}".removesuffix(".0")


def _taken_out(facts: _Facts) -> str:
    places = facts.count("places")
    kept = f" and away from {counted(places, 'place', 'places')} to avoid" if places else ""
    return (
        f"Cores keep {facts.metres('edge_m')} from the edge{kept}; that takes {facts.share('taken_share')} of the zone."
    )


def _nothing_left(facts: _Facts) -> str:
    return (
        f"No ground is left for cores: the zone is {facts.figure('area_ha')} ha, and {facts.metres('edge_m')} from its "
        "edge and the distances to places to avoid take all of it. The zone or the distances need another look."
    )


def _in_pieces(facts: _Facts) -> str:
    return (
        f"The ground left for cores lies in {counted(facts.count('pieces'), 'piece', 'pieces')}; all points lie in the largest, "
        f"{facts.share('share')} of it."
    )


def _line_too_short(facts: _Facts) -> str:
    return f"The longest straight line is {facts.metres('longest_m')}; the cores need {facts.metres('needed_m')}."


def _walk_too_short(facts: _Facts) -> str:
    return f"The longest such walk is {facts.metres('longest_m')}; the cores need {facts.metres('needed_m')}."


def _too_narrow(facts: _Facts) -> str:
    return (
        f"No part of the ground left is wider than {facts.metres('width_m')}; a zigzag needs "
        f"{facts.metres('needed_m')}."
    )


def _too_few_fit(facts: _Facts) -> str:
    fit, wanted = facts.count("fit"), facts.count("wanted")
    return (
        f"Within {facts.metres('radius_m')} of the fixed point there is room for {counted(fit, 'core', 'cores')}, not for the "
        f"{wanted} wanted."
    )


def _fixed_point_moved(facts: _Facts) -> str:
    return (
        "The fixed point lies where no core may be taken; the nearest place where one may, "
        f"{facts.metres('metres')} away, stands for it."
    )


def _other_pattern(facts: _Facts) -> str:
    return (
        f"The points follow another pattern than the protocol's {facts.pattern('wanted')}: {facts.pattern('pattern')}."
    )


def _spacing_reduced(facts: _Facts) -> str:
    asked, used = facts.metres("asked_m"), facts.metres("used_m")
    return f"The spacing asked for, {asked}, cannot be kept here; the points are {used} apart."


def _kept(facts: _Facts) -> str:
    points = facts.count("points")
    return f"The same {'point' if points == 1 else f'{points} points'} as at the sampling before."


def _moved(facts: _Facts) -> str:
    moved, points = facts.count("moved"), facts.count("points")
    verb = "lies" if moved == 1 else "lie"
    most = "" if moved == 1 else "at most "
    return (
        f"{moved} of {counted(points, 'point', 'points')} {verb} elsewhere than at the sampling before, "
        f"{most}{facts.metres('metres')} away; the others are the same."
        if moved < points
        else f"All {counted(points, 'point', 'points')} lie elsewhere than at the sampling before, "
        f"at most {facts.metres('metres')} away."
    )


def _all_new(_: _Facts) -> str:
    return (
        "The points of the sampling before could not be kept; all are new, so a change since then may come from the "
        "place as well as from the soil."
    )


def _banded(facts: _Facts) -> str:
    in_row, between = facts.count("in_row"), facts.count("between")
    return (
        f"Fertiliser lies in bands along rows {facts.figure('row_spacing_cm')} cm apart: "
        f"{counted(in_row, 'core', 'cores')} in the row, {between} between rows. Keep to the marks, or the band counts too much."
    )


_SENTENCES: dict[LayoutRule, Callable[[_Facts], str]] = {
    LayoutRule.TAKEN_OUT: _taken_out,
    LayoutRule.NOTHING_LEFT: _nothing_left,
    LayoutRule.IN_PIECES: _in_pieces,
    LayoutRule.LINE_TOO_SHORT: _line_too_short,
    LayoutRule.WALK_TOO_SHORT: _walk_too_short,
    LayoutRule.TOO_NARROW: _too_narrow,
    LayoutRule.TOO_FEW_FIT: _too_few_fit,
    LayoutRule.FIXED_POINT_MOVED: _fixed_point_moved,
    LayoutRule.OTHER_PATTERN: _other_pattern,
    LayoutRule.SPACING_REDUCED: _spacing_reduced,
    LayoutRule.KEPT: _kept,
    LayoutRule.MOVED: _moved,
    LayoutRule.ALL_NEW: _all_new,
    LayoutRule.BANDED: _banded,
}
