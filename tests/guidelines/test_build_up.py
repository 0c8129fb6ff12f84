"""What builds a soil test up. The figures are held in `published_values/test_offtake.py`."""

from __future__ import annotations

from soilrota.guidelines.build_up import build_ups
from soilrota.quantities import method, split_code


def test_every_row_names_a_known_test_in_its_unit() -> None:
    """The analysis is in the glossary, in the glossary's unit, so that no figure meets a result of another unit."""
    for row in build_ups().values():
        found = method(*split_code(row.test))
        assert found is not None
        assert found.unit == row.unit
        assert 0 < row.low <= row.high
        assert row.ground


def test_needed() -> None:
    """So many units need so many times the range; none needs none."""
    row = build_ups()["australia-colwell"]
    assert row.needed(5) == (10, 20)
    assert row.needed(0) == (0, 0)
    assert not row.per_acre


def test_unverified_figures_say_so() -> None:
    """Those of the Nutrient Management Guide were not read."""
    unread = {name for name, row in build_ups().items() if row.cited.status == "unverified"}
    assert unread == {"united-kingdom-phosphate", "united-kingdom-potash"}
