"""When a message that the server put off is tried again, and when it is given up.

Sources: J. Klensin, 2008, Simple Mail Transfer Protocol (RFC 5321), section 4.5.4.1: wait at least 30 minutes, give up
after at least 4 to 5 days. That waits double: common practice, no source.
"""

from __future__ import annotations

from datetime import datetime, timedelta

#: The first wait; each further one is twice as long, up to the longest.
FIRST_WAIT = timedelta(minutes=30)
LONGEST_WAIT = timedelta(hours=16)
#: Age at which a message is of no more use.
LONGEST_LIFE = timedelta(days=5)


def next_attempt(attempts: int, failed_at: datetime) -> datetime:
    """Return when to try again.

    Args:
        attempts: how often it was tried so far, this time included [-].
        failed_at: when it was put off.
    """
    wait = FIRST_WAIT
    for _ in range(attempts - 1):
        wait = min(2 * wait, LONGEST_WAIT)
    return failed_at + wait


def is_too_old(waits_since: datetime, now: datetime) -> bool:
    """Return whether a message has waited so long that it is given up."""
    return now - waits_since > LONGEST_LIFE
