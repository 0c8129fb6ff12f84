"""Small guideline sets, made by hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from soilrota.agronomy.doubt import Evidence, doubt_of
from soilrota.agronomy.rating import rate
from soilrota.agronomy.row_choice import Ground
from soilrota.model.guideline import GuidelineRow, GuidelineSet, RatingClass, Sense, Source, Status
from soilrota.model.judgement import Covariate, Doubt, Rating, Unrated
from soilrota.model.results import Result
from soilrota.problems import Place

PBI = "phosphorus-buffering-index.colwell-adjusted"
_PLACE = Place("set.yaml", 3)
_SOURCE = Source("made", "Nobody", 2020, "Figures for tests", "table 1")


def classes(*edges: float) -> tuple[RatingClass, ...]:
    """Return classes `c0`, `c1` ... between edges, open at both ends."""
    lows, highs = (None, *edges), (*edges, None)
    return tuple(
        RatingClass(f"c{number}", f"Class {number}", low, high)
        for number, (low, high) in enumerate(zip(lows, highs, strict=True))
    )


def row(name: str = "p", **changes: object) -> GuidelineRow:
    """Return a row: Colwell P, 0-10 cm, critical 30 mg/kg, no conditions."""
    plain = GuidelineRow(
        id=name, analyte="phosphorus", method="colwell", unit="mg/kg", top_cm=0, bottom_cm=10, sense=Sense.SUFFICIENCY,
        land_uses=(), crops=(), textures=(), rainfall_zones=(), ranges=(), goals=(), critical=30.0, line=None,
        critical_low=None, critical_high=None, target=None, limit=None, classes=(), decimals=None,
        basis="95 % of maximum yield", source=_SOURCE, status=Status.VERIFIED, note="", place=_PLACE,
    )  # fmt: skip
    return replace(plain, **changes)


def made_set(*rows: GuidelineRow, name: str = "made", goal: str = "") -> GuidelineSet:
    """Return a set of rows."""
    return GuidelineSet(name, name.title(), "nowhere", ("AU",), ("pasture",), goal, rows)


def ground(land_use: str = "pasture", texture: str = "", rainfall_zone: str = "", **known: float) -> Ground:
    """Return ground; `pbi=70` gives a covariate, another name one of that name with hyphens."""
    codes = {name: PBI if name == "pbi" else name.replace("_", "-") for name in known}
    covariates = {codes[name]: Covariate(codes[name], value) for name, value in known.items()}
    return Ground(land_use=land_use, texture=texture, rainfall_zone=rainfall_zone, covariates=covariates)


def judged(
    found: Result,
    *rows: GuidelineRow,
    on: Ground | None = None,
    doubt: Doubt | None = None,
    barred_by: Sequence[str] = (),
) -> Rating | Unrated:
    """Return what a result means under rows of one set."""
    sure = doubt or doubt_of(found, Evidence())
    return rate(found, (made_set(*rows),), on or ground(), sure, barred_by)


def rated(found: Result, *rows: GuidelineRow, on: Ground | None = None, doubt: Doubt | None = None) -> Rating:
    """Return the rating of a result that has one."""
    rating = judged(found, *rows, on=on, doubt=doubt)
    assert isinstance(rating, Rating), rating
    return rating


def refused(found: Result, *rows: GuidelineRow, on: Ground | None = None) -> Unrated:
    """Return why a result has no rating."""
    unrated = judged(found, *rows, on=on)
    assert isinstance(unrated, Unrated), unrated
    return unrated
