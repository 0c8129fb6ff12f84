"""The class of a value under a row of a guideline set, read in the most obvious way."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

from soilrota.guidelines.sets import guideline_sets
from soilrota.model.guideline import GuidelineRow


def row_of(set_id: str, row_id: str) -> GuidelineRow:
    """Return one row of a shipped set."""
    return next(row for row in guideline_sets()[set_id].rows if row.id == row_id)


def classes_of(row: GuidelineRow, value: float) -> list[str]:
    """Return every class that holds a value, which is to be one: lower edges belong to a class, upper ones do not."""
    rounded = Decimal(str(value))
    if row.decimals is not None:
        rounded = rounded.quantize(Decimal(1).scaleb(-row.decimals), ROUND_HALF_UP)
    return [
        one.name
        for one in row.classes
        if (one.low is None or Decimal(str(one.low)) <= rounded)
        and (one.high is None or rounded < Decimal(str(one.high)))
    ]


def words_of(row: GuidelineRow, value: float) -> str:
    """Return what is printed of a value."""
    (name,) = classes_of(row, value)
    return next(one.words for one in row.classes if one.name == name)
