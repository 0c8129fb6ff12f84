"""What holds mail back."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, time, timedelta

import pytest

from soilrota.delivery.limits import Hold, hold, in_quiet_hours
from soilrota.model.mail import Mail, QuietHours

NOON = datetime(2027, 2, 15, 12, 0)  # noqa: DTZ001 - a local time
MAIL = Mail(host="mail.small.example", from_address="office@small.example", cap=10)


@pytest.mark.parametrize(
    ("mail", "has_stop_file", "sent", "expected"),
    [
        (MAIL, False, 9, None),
        (Mail(), False, 0, Hold.NOT_SET_UP),
        (MAIL, True, 0, Hold.STOPPED),
        (replace(MAIL, stopped=True), False, 0, Hold.STOPPED),
        (replace(MAIL, quiet_hours=QuietHours(time(11), time(13))), False, 0, Hold.QUIET_HOURS),
        (MAIL, False, 10, Hold.CAP),
    ],
)
def test_what_holds(mail: Mail, *, has_stop_file: bool, sent: int, expected: Hold | None) -> None:
    """Each alone; without any, mail goes."""
    assert hold(mail, has_stop_file=has_stop_file, local=NOON, sent=sent) is expected


@pytest.mark.parametrize(
    "quiet", [QuietHours(time(22), time(6, 30)), QuietHours(time(0), time(5)), QuietHours(time(9), time(17))]
)
def test_quiet_hours_minute_by_minute(quiet: QuietHours) -> None:
    """They begin with their first minute and end before their last, also over midnight (walking the clock)."""
    moment, quiet_minutes = datetime.combine(NOON, quiet.begin), set()
    while moment.time() != quiet.end:
        quiet_minutes.add(moment.time())
        moment += timedelta(minutes=1)
    minutes = [time(number // 60, number % 60) for number in range(24 * 60)]
    assert {minute for minute in minutes if in_quiet_hours(quiet, minute)} == quiet_minutes
