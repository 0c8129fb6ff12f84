"""Guideline sets: from a checked file to rows, the shipped sets, and a practice's own laid over a shipped one.

A file of a set has the form of `guideline.schema.json`; its name is the id of the set. A row whose figures belong to a
derived quantity names its code as analyte (`derived_codes.yaml`) and the word `derived` as method.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import cache, partial
from pathlib import Path
from typing import Any

import yaml

from soilrota.model.guideline import GuidelineRow, GuidelineSet, PowerLine, Range, RatingClass, Sense, Source, Status
from soilrota.problems import Place

_FOLDER = Path(__file__).with_name("sets")
#: Returns the place of what stands at a path of a file.
PlaceOf = Callable[..., Place]


@cache
def guideline_sets() -> dict[str, GuidelineSet]:
    """Return the shipped sets by id, in order of their ids; each file is read once."""
    return {path.stem: _shipped_set(path) for path in sorted(_FOLDER.glob("*.yaml"))}


def _shipped_set(path: Path) -> GuidelineSet:
    """Return one shipped set. Tests hold the file against the schema, so here it is read without."""
    from soilrota.files.document import place_of  # noqa: PLC0415 - what reads YAML is loaded at its first use
    from soilrota.files.strict_yaml import parse_yaml  # noqa: PLC0415

    name = f"guidelines/sets/{path.name}"
    root, problems = parse_yaml(path, name)
    if root is None:
        raise ValueError(f"a shipped guideline set cannot be read: {problems[0]}")
    data = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return build_set(path.stem, data, lambda *steps: place_of(root, name, steps))


def build_set(set_id: str, data: Mapping[str, Any], place: PlaceOf, *, is_own: bool = False) -> GuidelineSet:
    """Return the set that a file describes, not yet laid over another.

    Args:
        set_id: id of the set: the name of its file.
        data: the file's content, as the schema has it.
        place: gives the place of what stands at a path of the file, for instance `place("rows", 3)`.
        is_own: whether it is the practice's own.

    Returns:
        The set. A row that refers to no source of the file holds a source without an author; `set_problems` says so.
    """
    sources = tuple(_source(one) for one in data["sources"])
    by_id = {source.id: source for source in sources}
    return GuidelineSet(
        id=set_id,
        name=data["name"],
        region=data["region"],
        countries=tuple(data.get("countries", ())),
        land_uses=tuple(data.get("land_uses", ())),
        goal=data.get("goal", ""),
        rows=tuple(_row(one, by_id, partial(place, "rows", number)) for number, one in enumerate(data["rows"])),
        left_out=tuple(data.get("left_out", ())),
        is_own=is_own,
        overrides=data.get("overrides", ""),
        always=data.get("always", False),
        sources=sources,
    )


def _source(data: Mapping[str, Any]) -> Source:
    """Return one source."""
    return Source(data["id"], data["author"], data.get("year", 0), data["title"], data.get("where", ""))


def _row(data: Mapping[str, Any], sources: Mapping[str, Source], place: PlaceOf) -> GuidelineRow:
    """Return one row."""
    line = data.get("line")
    return GuidelineRow(
        id=data["id"],
        analyte=data["analyte"],
        method=data["method"],
        unit=data["unit"],
        top_cm=float(data["top_cm"]),
        bottom_cm=float(data["bottom_cm"]),
        sense=Sense(data["sense"]),
        land_uses=tuple(data.get("land_uses", ())),
        crops=tuple(data.get("crops", ())),
        textures=tuple(data.get("textures", ())),
        rainfall_zones=tuple(data.get("rainfall_zones", ())),
        ranges=tuple(_range(one) for one in data.get("ranges", ())),
        goals=tuple(data.get("goals", ())),
        critical=_number(data, "critical"),
        line=None if line is None else _line(line),
        critical_low=_number(data, "critical_low"),
        critical_high=_number(data, "critical_high"),
        target=_number(data, "target"),
        limit=_number(data, "limit"),
        classes=tuple(_class(one) for one in data.get("classes", ())),
        decimals=data.get("decimals"),
        basis=data["basis"],
        source=sources.get(data["source"], Source(data["source"], "", 0, "")),
        status=Status(data.get("status", Status.VERIFIED)),
        note=data.get("note", ""),
        place=place(),
        any_layer_within=data.get("any_layer_within", False),
    )


def _range(data: Mapping[str, Any]) -> Range:
    """Return one range."""
    return Range(data["covariate"], _number(data, "low"), _number(data, "high"), data.get("decimals"))


def _line(data: Mapping[str, Any]) -> PowerLine:
    """Return a critical value that follows a covariate."""
    return PowerLine(data["covariate"], float(data["constant"]), float(data["factor"]), float(data["exponent"]))


def _class(data: Mapping[str, Any]) -> RatingClass:
    """Return one class."""
    return RatingClass(data["name"], data["words"], _number(data, "low"), _number(data, "high"))


def _number(data: Mapping[str, Any], key: str) -> float | None:
    """Return a figure; None where it is not written."""
    return float(data[key]) if key in data else None


def laid_over(own: GuidelineSet, below: GuidelineSet) -> GuidelineSet:
    """Return a practice's own set laid over the one that it overrides.

    Its rows come first, so that of two rows that fit equally well its own is taken; a row below of the same id is gone.
    What the own set does not say of itself (countries, land uses, goal) is taken from below.
    """
    replaced = {row.id for row in own.rows}
    return replace(
        own,
        countries=own.countries or below.countries,
        land_uses=own.land_uses or below.land_uses,
        goal=own.goal or below.goal,
        always=below.always,
        rows=(*own.rows, *(row for row in below.rows if row.id not in replaced)),
        left_out=(*own.left_out, *below.left_out),
        sources=(*own.sources, *below.sources),
    )
