"""How much single cores differ, the laboratory's part, and the precision that is wanted, from the shipped table."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import yaml

from soilrota.model.cores import Precision, Spread

_FILE = Path(__file__).with_name("core_spread.yaml")


@cache
def _content() -> dict[str, Any]:
    """Return the shipped file's content."""
    content: dict[str, Any] = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return content


def _entry(table: str, analyte: str) -> dict[str, Any]:
    """Return the entry of an analyte in a table of the file, or that table's default."""
    found: dict[str, Any] = _content()[table]["analytes"].get(analyte, _content()[table]["default"])
    return found


def cited_spread(analyte: str) -> Spread:
    """Return the figures of the table for an analyte [%], with their sources; its defaults where it has no own."""
    cores, laboratory = _entry("cores", analyte), _entry("laboratory", analyte)
    return Spread(
        analyte=analyte,
        core_cv_percent=float(cores["cv_percent"]),
        laboratory_cv_percent=float(laboratory["cv_percent"]),
        degrees=None,
        source=f"cores: {cores['source']}; laboratory: {laboratory['source']}",
    )


def wanted_precision(analyte: str) -> Precision:
    """Return the precision that the house rule asks of an analyte."""
    wanted = _entry("wanted", analyte)
    return Precision(float(wanted["within_percent"]), float(wanted["confidence"]))


def wanted_source(analyte: str) -> str:
    """Return what stands behind the wanted precision of an analyte."""
    return str(_entry("wanted", analyte)["source"])


def least_degrees() -> int:
    """Return how many degrees of freedom earlier results must have to stand before a cited figure [-]."""
    return int(_content()["earlier_results"]["least_degrees"])
