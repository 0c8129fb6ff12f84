"""The figures of laboratory intake."""

from __future__ import annotations

from dataclasses import fields

from soilrota.guidelines.intake import IntakeFigures, intake_figures, intake_table


def test_every_figure_has_its_reason_and_source() -> None:
    """The table holds what is asked for and nothing else, each with why and where from."""
    assert list(intake_table()) == [one.name for one in fields(IntakeFigures)]
    assert all(row.reason.endswith(".") and row.source and row.figure > 0 for row in intake_table().values())


def test_the_stated_house_defaults() -> None:
    """Three days between file and field note; bags are looked for a little over a year."""
    figures = intake_figures()
    assert (figures.sampled_days_apart, figures.missing_after_days) == (3, 400)
    assert figures.days_before_season == 120
    assert 4 * 2.54 - 10 < figures.depth_cm_apart < 5
