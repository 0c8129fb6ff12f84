"""The figures of judging: read whole, each with its reason and source."""

from __future__ import annotations

from dataclasses import fields

from soilrota.guidelines.judging import JudgingFigures, judging_figures, judging_table


def test_every_figure_is_read_and_says_why() -> None:
    """The table and the figures have the same names, and nothing stands without its source."""
    assert set(judging_table()) == {field.name for field in fields(JudgingFigures)}
    assert all(one.reason and one.source for one in judging_table().values())
    assert all(getattr(judging_figures(), name) == one.figure for name, one in judging_table().items())


def test_the_bounds_of_near_are_an_interval_round_a_half() -> None:
    """On the line is near the line."""
    figures = judging_figures()
    assert 0 < figures.near_low < 0.5 < figures.near_high < 1
