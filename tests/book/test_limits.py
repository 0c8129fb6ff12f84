"""The table of limits: complete, cited, in order."""

from __future__ import annotations

from dataclasses import fields
from importlib.resources import files

import yaml

from soilrota.book.limits import Limits, limits


def test_every_limit_is_cited() -> None:
    """Each limit has a value, a unit and a source, and none is left over."""
    table = yaml.safe_load(files("soilrota.book").joinpath("limits.yaml").read_text(encoding="utf-8"))
    assert set(table) == {field.name for field in fields(Limits)}
    for entry in table.values():
        assert set(entry) == {"value", "unit", "source"}
        assert len(entry["source"]) > 10 or entry["source"] == "house default"


def test_limits_are_in_order() -> None:
    """A warning comes before its error, and the least before the wanted."""
    assert limits().deep_cores_least < limits().deep_cores < limits().topsoil_cores
    assert limits().area_differs_warning < limits().area_differs_error
    assert limits().outside_farm_warning < limits().outside_farm_error
    assert limits().earliest_year < limits().latest_year


def test_every_class_has_a_likely_rate() -> None:
    """The classes of application are those of the book."""
    classes = {"mineral-fertiliser", "lime", "gypsum", "manure", "compost", "biosolids", "other-amendment"}
    assert set(limits().rate_unlikely_kg_ha) == classes
