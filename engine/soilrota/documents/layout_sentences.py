"""Why a layout is as it is, in sentences: for the field pack and for the programme."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from soilrota.documents.dates import counted, digits
from soilrota.language import marked, say, say_count
from soilrota.model.layout import LayoutReason, LayoutRule, ZoneLayout

#: The patterns as nouns, said where they are used.
PATTERN_NAMES = {
    "transect": marked("straight line"),
    "zigzag": marked("zigzag"),
    "cluster": marked("cluster round a fixed point"),
    "strata": marked("one core in each of many equal parts"),
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
    walked = say(
        "{points}, walked in {walk}: {pattern}.",
        points=counted(len(layout.points), "point", "points"),
        walk=metres_words(layout.walk_m),
        pattern=say(PATTERN_NAMES[layout.pattern]),
    )
    return (walked, *reasons, *moved_sentences(layout))


def moved_sentences(layout: ZoneLayout, most: int = 8) -> Iterator[str]:
    """Yield which points lie elsewhere than before, the farthest first, and how far; at most so many by number."""
    if not layout.moved:
        return
    moved = sorted(layout.moved, key=lambda one: (-one.metres, one.number))
    named = ", ".join(f"{one.number} ({metres_words(one.metres)})" for one in moved[:most])
    rest = len(moved) - most
    if rest > 0:
        yield say_count(
            "Moved since the last sampling: points {points} and {count} more, each less far.",
            "Moved since the last sampling: points {points} and {count} more, each less far.",
            rest,
            points=named,
        )
    else:
        yield say_count(
            "Moved since the last sampling: point {points}.",
            "Moved since the last sampling: points {points}.",
            len(moved),
            points=named,
        )


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
            return say("less than {percent}%", percent=1)
        if 1 - _ONE_PER_CENT < share < 1:
            return say("more than {percent}%", percent=99)
        return say("{percent}%", percent=f"{share * 100:.0f}")

    def count(self, name: str) -> int:
        """Return a fact that is a number of things."""
        return int(self._facts[name])

    def figure(self, name: str) -> str:
        """Return a fact that is a number, with at most one decimal."""
        return _trimmed(float(self._facts[name]))

    def pattern(self, name: str) -> str:
        """Return a fact that is a pattern, as a noun."""
        return say(PATTERN_NAMES[str(self._facts[name])])


def _trimmed(value: float) -> str:
    """Return a number with one decimal, or none where it is whole."""
    return digits(f"{value:.1f}".removesuffix(".0"))


def _taken_out(facts: _Facts) -> str:
    places, edge, taken = facts.count("places"), facts.metres("edge_m"), facts.share("taken_share")
    if not places:
        return say("Cores keep {edge} from the edge; that takes {share} of the zone.", edge=edge, share=taken)
    return say_count(
        "Cores keep {edge} from the edge and away from {count} place to avoid; that takes {share} of the zone.",
        "Cores keep {edge} from the edge and away from {count} places to avoid; that takes {share} of the zone.",
        places,
        edge=edge,
        share=taken,
    )


def _nothing_left(facts: _Facts) -> str:
    return say(
        "No ground is left for cores: the zone is {area} ha, and {edge} from its edge and the distances to places to "
        "avoid take all of it. The zone or the distances need another look.",
        area=facts.figure("area_ha"),
        edge=facts.metres("edge_m"),
    )


def _in_pieces(facts: _Facts) -> str:
    return say_count(
        "The ground left for cores lies in {count} piece; all points lie in the largest, {share} of it.",
        "The ground left for cores lies in {count} pieces; all points lie in the largest, {share} of it.",
        facts.count("pieces"),
        share=facts.share("share"),
    )


def _line_too_short(facts: _Facts) -> str:
    return say(
        "The longest straight line is {longest}; the cores need {needed}.",
        longest=facts.metres("longest_m"),
        needed=facts.metres("needed_m"),
    )


def _walk_too_short(facts: _Facts) -> str:
    return say(
        "The longest such walk is {longest}; the cores need {needed}.",
        longest=facts.metres("longest_m"),
        needed=facts.metres("needed_m"),
    )


def _too_narrow(facts: _Facts) -> str:
    return say(
        "No part of the ground left is wider than {width}; a zigzag needs {needed}.",
        width=facts.metres("width_m"),
        needed=facts.metres("needed_m"),
    )


def _too_few_fit(facts: _Facts) -> str:
    return say_count(
        "Within {radius} of the fixed point there is room for {count} core, not for the {wanted} wanted.",
        "Within {radius} of the fixed point there is room for {count} cores, not for the {wanted} wanted.",
        facts.count("fit"),
        radius=facts.metres("radius_m"),
        wanted=facts.count("wanted"),
    )


def _fixed_point_moved(facts: _Facts) -> str:
    return say(
        "The fixed point lies where no core may be taken; the nearest place where one may, {distance} away, stands "
        "for it.",
        distance=facts.metres("metres"),
    )


def _other_pattern(facts: _Facts) -> str:
    return say(
        "The points follow another pattern than the protocol's {wanted}: {pattern}.",
        wanted=facts.pattern("wanted"),
        pattern=facts.pattern("pattern"),
    )


def _spacing_reduced(facts: _Facts) -> str:
    return say(
        "The spacing asked for, {asked}, cannot be kept here; the points are {used} apart.",
        asked=facts.metres("asked_m"),
        used=facts.metres("used_m"),
    )


def _kept(facts: _Facts) -> str:
    return say_count(
        "The same point as at the sampling before.",
        "The same {count} points as at the sampling before.",
        facts.count("points"),
    )


def _moved(facts: _Facts) -> str:
    moved, points, distance = facts.count("moved"), facts.count("points"), facts.metres("metres")
    if moved < points:
        return say_count(
            "{count} of {points} points lies elsewhere than at the sampling before, {distance} away; the others are "
            "the same.",
            "{count} of {points} points lie elsewhere than at the sampling before, at most {distance} away; the others "
            "are the same.",
            moved,
            points=points,
            distance=distance,
        )
    return say_count(
        "The only point lies elsewhere than at the sampling before, {distance} away.",
        "All {count} points lie elsewhere than at the sampling before, at most {distance} away.",
        points,
        distance=distance,
    )


def _all_new(_: _Facts) -> str:
    return say(
        "The points of the sampling before could not be kept; all are new, so a change since then may come from the "
        "place as well as from the soil."
    )


def _banded(facts: _Facts) -> str:
    return say_count(
        "Fertiliser lies in bands along rows {spacing} cm apart: {count} core in the row, {between} between rows. "
        "Keep to the marks, or the band counts too much.",
        "Fertiliser lies in bands along rows {spacing} cm apart: {count} cores in the row, {between} between rows. "
        "Keep to the marks, or the band counts too much.",
        facts.count("in_row"),
        spacing=facts.figure("row_spacing_cm"),
        between=facts.count("between"),
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
