"""Cautions that belong beside advice, notes on how a report is read, and what the report is not."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from soilrota.documents.caution_words import caution_sentence
from soilrota.documents.cautions import DUST, NEAR_WATER_M, WATER
from soilrota.documents.report_grounds import FarmGrounds, all_judged
from soilrota.language import marked, say
from soilrota.model.advice import Input, Need
from soilrota.model.guideline import Status

#: Texts here are said where they are given out.
LOCAL = marked(
    "Local rules and a qualified adviser who knows the ground come before anything said here: the rules of the place "
    "set what may be spread where, when and how much."
)
_DUSTY = frozenset({Input.LIME, Input.GYPSUM})
_SPREAD = marked(
    "Spread in still, dry weather, with guards on and nobody near the spreader; keep the distances to water and "
    "neighbours that the rules set."
)
HOW_TO_READ = (
    marked(
        "A line is the value under which there is too little, or over which there is too much, on such ground by the "
        "guideline that is named. A target is what the client agreed on. Both hold only for the same method, unit and "
        "depth."
    ),
    marked(
        "Near the line: the value is so close to the line that the zone may lie on either side of it. Measure again "
        "before much money is spent on it."
    ),
    marked(
        "A chance of 70 in 100 that the zone lies under its line means: of 100 zones with such a value, about 70 truly "
        "lie under it. The range in brackets, or the upright line in a chart, is what the zone’s mean may be, 95 times "
        "in 100; it takes in how cores differ within a zone and how a laboratory repeats itself."
    ),
    marked("A sign < or > before a value: the laboratory could only tell that it lies beyond that limit."),
    marked(
        "Hollow squares in a chart do not compare with later values: another method, layer or season, or the zone was "
        "drawn otherwise."
    ),
    marked(
        "Unverified: a figure that was not read in its own source. It is the best there is here, and is to be checked "
        "before much hangs on it."
    ),
)


def need_cautions(ids: Iterable[str]) -> Iterator[str]:
    """Yield the cautions that belong beside a need, each once; that local rules decide stands once in the report."""
    yield from dict.fromkeys(caution_sentence(one) for one in ids if one != "local-rules")


def report_cautions(grounds: FarmGrounds) -> tuple[str, ...]:
    """Return the cautions that a farm's report calls for, each once."""
    needs = [one for one in grounds.all.needs if isinstance(one, Need) and one.farm == grounds.farm.id and one.amount]
    distances = [zone.distance_to_water_m for zone in grounds.farm.zones]
    near = any(one is not None and one < NEAR_WATER_M for one in distances)
    found = [LOCAL]
    found += [_SPREAD] if needs else []
    found += [DUST] if any(one.input in _DUSTY for one in needs) else []
    found += [WATER] if near or any(one.input not in _DUSTY for one in needs) else []
    return tuple(say(one) for one in dict.fromkeys(found))


def reading_notes(grounds: FarmGrounds) -> tuple[str, ...]:
    """Return how a report is read, as far as it uses what is explained."""
    ratings = [rating for judged in grounds.judged for rating in judged.ratings]
    results = [one.result for judged in grounds.judged for one in all_judged(judged)]
    uses = (
        True,
        any(one.near for one in ratings),
        any(one.below is not None for one in ratings),
        any(one.qualifier for one in results),
        any(trend.left_out for judged in grounds.judged for trend in judged.trends),
        any(one.row.status is not Status.VERIFIED for one in ratings)
        or any(one.status is not Status.VERIFIED for judged in grounds.judged for one in judged.quantities),
    )
    return tuple(say(note) for note, used in zip(HOW_TO_READ, uses, strict=True) if used)
