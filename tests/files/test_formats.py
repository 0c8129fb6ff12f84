"""Formats that really check."""

from __future__ import annotations

import pytest

from soilrota.files.formats import fault, iso_day

GOOD = {
    "date": ["2027-02-15", "2028-02-29"],
    "month-day": ["01-20", "02-29", "12-31"],
    "email": ["a@b.example", "o'neil+soil@x-y.example", "jörg@höfe.example"],
    "time-zone": ["Europe/London", "Australia/Melbourne", "UTC"],
    "id": ["a", "river-flat", "zone-3"],
}
BAD = {
    "date": ["2027-2-5", "2026-02-29", "15/02/2027", "2027-02-15T00:00", "२०२७-०२-१५", "2027-02-15\n", ""],
    "month-day": ["02-30", "13-01", "1-20", "00-10", "01-20\n"],
    "email": [
        "@",
        "a@b",
        "a b@c.example",
        "a@x.example, b@y.example",
        "Jo <a@b.example>",
        "a@b..example",
        "a@b.example\n",
    ],
    "time-zone": ["Melbourne", "Europe/Londn", ""],
    "id": ["", "A", "a_b", "a--b", "-a", "a-", "../x", "a" * 65, "a\n", "ä"],
}


@pytest.mark.parametrize(("name", "text"), [(name, text) for name, texts in GOOD.items() for text in texts])
def test_right_texts_pass(name: str, text: str) -> None:
    """What is right has no fault."""
    assert fault(name, text) is None


@pytest.mark.parametrize(("name", "text"), [(name, text) for name, texts in BAD.items() for text in texts])
def test_wrong_texts_are_said_with_a_mend(name: str, text: str) -> None:
    """What is wrong is said, with a mend."""
    found = fault(name, text)
    assert found is not None
    assert all(found)


def test_an_unknown_format_checks_nothing() -> None:
    """Formats of other programs are passed over."""
    assert fault("uri", "x") is None
    assert iso_day("2027-02-31") is None


def test_both_readings_of_a_slashed_day() -> None:
    """Day first and month first are both offered where both exist."""
    assert fault("date", "03/02/2026") == ("'03/02/2026' is no ISO date", "write 2026-02-03 or 2026-03-02")
    assert fault("date", "25.12.2026") == ("'25.12.2026' is no ISO date", "write 2026-12-25")
