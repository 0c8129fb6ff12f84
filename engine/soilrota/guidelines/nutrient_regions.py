"""Which rule reckons the need of which nutrient where, from the shipped table."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from typing import Any

from soilrota.guidelines.build_up import BuildUp, build_ups
from soilrota.guidelines.cited import shipped_table
from soilrota.model.advice import Input
from soilrota.model.guideline import GuidelineSet
from soilrota.model.practice import Hemisphere

_TABLE = "nutrient_regions"


class RateRule(StrEnum):
    """How the need of a nutrient is reckoned; the table says what each does."""

    INDEX = "index"
    CLASS = "class"
    FORMULA = "formula"
    BUILD_UP = "build-up"
    REMOVAL = "removal"


@dataclass(frozen=True, slots=True)
class NutrientRule:
    """How the need of one nutrient is reckoned in a region.

    Attributes:
        rule: how.
        form: what the tables count, for instance `P2O5`; empty where the rule asks none.
        figures: figures of build-up, by the test that they hold for.
        stops_where_clear: whether nothing is spread where the result is clearly above its line.
        land_uses: where it holds; empty for everywhere.
    """

    rule: RateRule
    form: str
    figures: tuple[BuildUp, ...]
    stops_where_clear: bool
    land_uses: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NutrientRegion:
    """The rules of a region.

    Attributes:
        id: its id.
        rules: by input; an input that is missing has no rule.
        editions: removal editions, the one that goes first first.
        pasture_editions: the same on land in pasture or hay.
        has_nitrogen_budget: whether the budget of nitrogen holds there.
        is_superseded: whether a later edition of its rules exists, which was not read.
    """

    id: str
    rules: Mapping[Input, NutrientRule]
    editions: tuple[str, ...]
    pasture_editions: tuple[str, ...]
    has_nitrogen_budget: bool
    is_superseded: bool

    def editions_on(self, land_use: str) -> tuple[str, ...]:
        """Return the removal editions on a land use."""
        return self.pasture_editions if land_use in {"pasture", "hay"} else self.editions


def region_of(chosen: GuidelineSet | None, country: str, subdivision: str) -> NutrientRegion | None:
    """Return the region by the guideline set of the advice, else by place; None where no rule was read.

    Args:
        chosen: the set; of a practice's own set, the one that it overrides counts.
        country: ISO 3166-1 code.
        subdivision: ISO 3166-2 subdivision without the country; may be empty.

    >>> region_of(None, "GB", "ENG").id
    'united-kingdom'
    """
    names = {chosen.id, chosen.overrides} if chosen else set()
    rows = shipped_table(_TABLE)["regions"]
    by_set = (row["id"] for row in rows if names & set(row["sets"]))
    by_place = (row["id"] for place in (f"{country}-{subdivision}", country) for row in rows if place in row["places"])
    found = next(by_set, None) or next(by_place, None)
    return _regions()[found] if found else None


def default_build_up_years() -> int:
    """Return over how many years a soil is built up where nobody chose [years]."""
    return int(shipped_table(_TABLE)["build_up_years"]["value"])


def next_harvest_from(hemisphere: Hemisphere) -> int:
    """Return from which month on the next harvest is that of the next year [month]."""
    return int(shipped_table(_TABLE)["harvest"][hemisphere.value])


def may_carry(material_class: str) -> tuple[Input, ...]:
    """Return what materials of a class of application may carry."""
    return tuple(Input(one) for one in shipped_table(_TABLE)["carries"].get(material_class, ()))


def is_organic(material_class: str) -> bool:
    """Return whether a crop finds only a share of what a class holds in its year; `manure.yaml` has the shares."""
    return material_class in shipped_table(_TABLE)["organic"]


@cache
def _regions() -> dict[str, NutrientRegion]:
    """Return the regions by id."""
    return {
        row["id"]: NutrientRegion(
            id=row["id"],
            rules={Input(name): _rule(rule) for name, rule in row["rules"].items()},
            editions=tuple(row["editions"]),
            pasture_editions=tuple(row.get("pasture_editions", row["editions"])),
            has_nitrogen_budget=row.get("nitrogen") == "budget",
            is_superseded=row.get("superseded", False),
        )
        for row in shipped_table(_TABLE)["regions"]
    }


def _rule(row: Mapping[str, Any]) -> NutrientRule:
    """Return one rule."""
    return NutrientRule(
        rule=RateRule(row["rule"]),
        form=row.get("form", ""),
        figures=tuple(build_ups()[name] for name in row.get("figures", ())),
        stops_where_clear=row.get("clear", False),
        land_uses=tuple(row.get("land_uses", ())),
    )
