"""Waiting times and their sources."""

from __future__ import annotations

from soilrota.files.schemas import shipped_schemas
from soilrota.guidelines import analysis_waits, gaps
from soilrota.quantities import analyte


def test_every_class_of_the_schemas_waits_three_months() -> None:
    """Three calendar months for each class by default; none is missing."""
    classes = set(shipped_schemas().at("applications.table.json", ("class",))["enum"])
    assert set(gaps()) == classes
    assert all(gap.counts and gap.months == 3 for gap in gaps().values())


def test_every_figure_names_its_source() -> None:
    """A published source, or 'common practice, no source'; the statute for phosphorus is named."""
    assert all(gap.source for gap in gaps().values())
    assert "SR 2006/488" in gaps()["mineral-fertiliser"].source
    assert "common practice, no source" in gaps()["gypsum"].source


def test_ph_waits_a_year_after_lime() -> None:
    """Twelve months after lime before pH is read, in the United Kingdom's texts."""
    lime = next(wait for wait in analysis_waits() if wait.material_class == "lime")
    assert lime.months == 12
    assert "ph" in lime.analytes
    assert all(analyte(name) for wait in analysis_waits() for name in wait.analytes)
    assert all(wait.source for wait in analysis_waits())
