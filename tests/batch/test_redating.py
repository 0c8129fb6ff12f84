"""The as-of date in the season page."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from soilrota.batch.redating import redated
from soilrota.documents import render_season_page
from soilrota.documents.dates import long_day
from tests.documents.seasons import a_season

DAY = date(2027, 2, 15)


@pytest.mark.parametrize("language", ["en-GB", "en-US", "es", "es-AR"])
@pytest.mark.parametrize("day", [date(2027, 1, 1), date(2028, 2, 29), date(2027, 12, 31)])
def test_a_new_day_is_all_that_differs(day: date, language: str) -> None:
    """What the night does to the file is what the page maker would write, in the practice's language."""
    view = replace(a_season(30), language=language)
    assert long_day(day, language).encode() in render_season_page(view, day)
    assert redated(render_season_page(view, DAY), day) == render_season_page(view, day)
