"""Waiting times after an application, from the shipped table."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import yaml

from soilrota.model.practice import AnalysisWait, Gap
from soilrota.problems import Place

_FILE = Path(__file__).with_name("gaps.yaml")
_PLACE = Place("guidelines/gaps.yaml")


@cache
def _content() -> dict[str, Any]:
    """Return the shipped file's content."""
    content: dict[str, Any] = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return content


def gaps() -> dict[str, Gap]:
    """Return the waiting time of every class of application [month], each with its source."""
    return {
        row["class"]: Gap(
            row["class"], counts=True, months=row["months"], reason="", source=row["source"], place=_PLACE
        )
        for row in _content()["gaps"]
    }


def analysis_waits() -> tuple[AnalysisWait, ...]:
    """Return the longer waits that hold for some analyses only, each with its source."""
    return tuple(
        AnalysisWait(row["class"], tuple(row["analytes"]), row["months"], row["source"])
        for row in _content()["analysis_waits"]
    )
