"""Days by language and country."""

from __future__ import annotations

from datetime import date

import pytest

from soilrota.language.days import long_day, month_letters, short_day

DAY = date(2027, 9, 1)


@pytest.mark.parametrize(
    ("language", "whole", "short", "month"),
    [
        ("en-GB", "1 September 2027", "1 September", "Sept"),
        ("en-US", "September 1, 2027", "September 1", "Sep"),
        ("es-ES", "1 de septiembre de 2027", "1 de septiembre", "sept"),
        ("de", "1. September 2027", "1. September", "Sep"),
    ],
)
def test_days_are_written_as_the_country_writes_them(language: str, whole: str, short: str, month: str) -> None:
    """As CLDR has it, through Babel."""
    assert (long_day(DAY, language), short_day(DAY, language)) == (whole, short)
    assert month_letters(DAY, language) == month
