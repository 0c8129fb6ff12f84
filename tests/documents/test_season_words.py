"""What the script of the season page says."""

from __future__ import annotations

from datetime import date

import pytest

from soilrota.documents.dates import long_day
from soilrota.documents.season_words import day_form, script_words
from soilrota.language import speaking


def test_a_count_has_every_form_of_its_language() -> None:
    """By the names that the script asks for; the count is filled in there."""
    words = script_words()
    assert words["all"] == {"one": "{count} task.", "other": "{count} tasks."}
    assert words["some"]["other"] == "{some} of {count} tasks."
    with speaking("es"):
        assert set(script_words()["all"]) == {"one", "other"}
    with speaking("pl"):
        assert set(script_words()["all"]) == {"one", "few", "many"}


def test_the_year_of_a_span_stands_once_where_the_day_comes_first() -> None:
    """As in other documents."""
    assert script_words()["year_once"]
    with speaking("en-US"):
        assert not script_words()["year_once"]


@pytest.mark.parametrize("language", ["en-GB", "en-US", "en-CA", "es", "es-MX", "pt-BR", "de", "pl"])
@pytest.mark.parametrize("month", range(1, 13))
def test_a_day_is_written_by_its_form(language: str, month: int) -> None:
    """What the form gives is what documents write."""
    day = date(2028, month, 9)
    with speaking(language):
        form, months = day_form()
    assert form.format(day=day.day, month=months[month - 1], year=day.year) == long_day(day, language)
