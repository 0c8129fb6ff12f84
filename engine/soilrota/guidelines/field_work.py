"""How long field work and driving take, from the shipped table."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import yaml

from soilrota.model.field_calendar import FieldWork, PlanningRules, TravelFigures
from soilrota.model.visits import WorkMinutes

_FILE = Path(__file__).with_name("field_work.yaml")


@cache
def field_work() -> FieldWork:
    """Return the house figures for work [min], driving and planning, with their source."""
    content = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return FieldWork(
        minutes=WorkMinutes(**content["minutes"]),
        travel=TravelFigures(**content["travel"]),
        planning=PlanningRules(**content["planning"]),
        source=content["source"],
    )
