"""What holds mail back: nothing set up, a stop switch, quiet hours, a cap."""

from __future__ import annotations

from datetime import datetime, time, timedelta
from enum import StrEnum

from soilrota.model.mail import Mail, QuietHours

#: Name of the file under records/ that stops all sending while it is there.
STOP_FILE = "stop-sending"
#: What counts as one night for the cap.
NIGHT = timedelta(hours=12)


class Hold(StrEnum):
    """Why nothing more is sent for now."""

    NOT_SET_UP = "not-set-up"
    STOPPED = "stopped"
    QUIET_HOURS = "quiet-hours"
    CAP = "cap"
    ENDED = "ended"
    SERVER = "server"
    FAULT = "fault"


def hold(mail: Mail, *, has_stop_file: bool, local: datetime, sent: int) -> Hold | None:
    """Return why the next message may not go now; None where it may.

    Args:
        mail: how the practice sends.
        has_stop_file: whether the file that stops sending is there.
        local: now, in the practice's time zone.
        sent: messages sent in this night so far [-].
    """
    if not mail.host:
        return Hold.NOT_SET_UP
    if mail.stopped or has_stop_file:
        return Hold.STOPPED
    if mail.quiet_hours is not None and in_quiet_hours(mail.quiet_hours, local.time()):
        return Hold.QUIET_HOURS
    return Hold.CAP if sent >= mail.cap else None


def in_quiet_hours(quiet: QuietHours, clock: time) -> bool:
    """Return whether a time of the day lies in the quiet hours, their end left out.

    >>> night = QuietHours(time(21), time(6, 30))
    >>> [in_quiet_hours(night, time(hour)) for hour in (20, 21, 0, 6, 7)]
    [False, True, True, True, False]
    """
    if quiet.begin <= quiet.end:
        return quiet.begin <= clock < quiet.end
    return clock >= quiet.begin or clock < quiet.end
