"""The as-of date that stands in the season page: nothing else in the page depends on the day.

The page says itself how a day is written in its language, so that this needs nothing that knows languages.
"""

from __future__ import annotations

import re
from datetime import date

PAGE_FILE = "season.html"
_AS_OF = re.compile(
    rb'(<time class="as-of" data-form="([^"]*)" data-months="([^"]*)" datetime=")[^"]*(">)[^<]*(</time>)'
)


def redated(page: bytes, day: date) -> bytes:
    """Return a page with another as-of date; nothing else in it depends on the day."""

    def redone(found: re.Match[bytes]) -> bytes:
        head, form, months, middle, end = found.groups()
        month = months.split(b"|")[day.month - 1]
        words = form.replace(b"{day}", b"%d" % day.day).replace(b"{year}", b"%d" % day.year)
        return head + day.isoformat().encode() + middle + words.replace(b"{month}", month) + end

    return _AS_OF.sub(redone, page)
