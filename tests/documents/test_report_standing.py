"""Where a value stands: a word and a shape of its own for each side of each line."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.documents.report_standing import (
    WORDS,
    Standing,
    standing_mark,
    standing_of,
    standing_word,
    standing_words,
)
from soilrota.model.guideline import Sense
from tests.documents.reports import farm_grounds

RATING = next(one for one in farm_grounds("anvil-creek").judged[0].ratings if one.critical is not None)


@pytest.mark.parametrize(
    ("sense", "below", "near", "standing"),
    [
        (Sense.SUFFICIENCY, 0.9, False, Standing.TOO_LOW),
        (Sense.SUFFICIENCY, 0.1, False, Standing.HIGH_ENOUGH),
        (Sense.SUFFICIENCY, 0.5, True, Standing.NEAR),
        (Sense.EXCESS, 0.9, False, Standing.NOT_TOO_HIGH),
        (Sense.EXCESS, 0.1, False, Standing.TOO_HIGH),
        (Sense.EXCESS, 0.4, True, Standing.NEAR),
        (Sense.DESCRIPTION, 0.9, False, Standing.DESCRIBED),
    ],
)
def test_every_side_of_every_line(sense: Sense, below: float, near: bool, standing: Standing) -> None:
    """By the sense of the row and the chance of lying under its line."""
    rating = replace(RATING, row=replace(RATING.row, sense=sense), below=below, near=near)
    assert standing_of(rating) is standing


def test_without_a_line_the_class_is_what_is_said() -> None:
    """And beside a line both are."""
    described = replace(RATING, critical=None, below=None, words="Index 2-")
    assert standing_words(described) == "Index 2-"
    assert standing_words(replace(RATING, below=0.9, near=False, words="low")) == "too low (low)"


def test_marks_and_words() -> None:
    """Each has both; what asks for something differs in shape from what is in order."""
    marks = {standing: standing_mark(standing) for standing in Standing}
    assert set(WORDS) == set(Standing)
    assert standing_word(Standing.TOO_HIGH) == "too high"
    serious = (Standing.TOO_HIGH, Standing.TOO_LOW, Standing.NEAR, Standing.HIGH_ENOUGH, Standing.UNRATED)
    assert len({marks[one].partition("<title>")[2] for one in serious}) == len(serious)
