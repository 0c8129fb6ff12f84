"""Windows worked by hand, each with its calendar drawn; random tasks are in test_windows_oracle.py."""

from __future__ import annotations

from calendar import monthrange
from datetime import date

import pytest

from soilrota.model.practice import AnalysisWait
from soilrota.model.windows import Rule, State, Window
from soilrota.timing import window_of
from tests.timing.making import a_task, day, sampled, seasons, span, spread

LAST = sampled("2026-02-20", "2026-03-09")


def drawn(window: Window, as_of: date) -> list[str]:
    """Return the months of the season, one character a day.

    `.` out of season, `x` closed, `-` open but past, `o` open, `*` the preferred day, `?` not known.
    """
    first, last = window.season.span.first, window.season.span.last
    months = range(first.year * 12 + first.month - 1, last.year * 12 + last.month)
    return [_month(window, as_of, number // 12, number % 12 + 1) for number in months]


def _month(window: Window, as_of: date, year: int, month: int) -> str:
    """Return one month of the drawing."""
    days = (date(year, month, number) for number in range(1, monthrange(year, month)[1] + 1))
    return f"{year}-{month:02d} " + "".join(_sign(window, as_of, found) for found in days)


def _sign(window: Window, as_of: date, found: date) -> str:
    """Return the character of one day."""
    if found not in window.season.span:
        return "."
    if window.state is State.NOT_KNOWN:
        return "?"
    if found == window.preferred:
        return "*"
    if not any(found in one for one in window.season_open):
        return "x"
    return "-" if found < as_of else "o"


CASES = [
    pytest.param(
        (LAST,),
        "2027-01-25",
        "open-today",
        [
            "2027-01 ...................-----ooooooo",
            "2027-02 ooooooooooooooooooo*oooooooo",
            "2027-03 ooooooooooooooooooooooooooooooo",
        ],
        id="a clear season aims at the anniversary",
    ),
    pytest.param(
        (LAST, spread("2026-11-20")),
        "2027-01-25",
        "opens-later",
        [
            "2027-01 ...................xxxxxxxxxxxx",
            "2027-02 xxxxxxxxxxxxxxxxxxx*oooooooo",
            "2027-03 ooooooooooooooooooooooooooooooo",
        ],
        id="three months after spreading the day itself is open",
    ),
    pytest.param(
        (LAST, spread("2026-11-30")),
        "2027-01-25",
        "opens-later",
        [
            "2027-01 ...................xxxxxxxxxxxx",
            "2027-02 xxxxxxxxxxxxxxxxxxxxxxxxxxx*",
            "2027-03 ooooooooooooooooooooooooooooooo",
        ],
        id="30 November and three months is the last day of February",
    ),
    pytest.param(
        (sampled("2027-02-20", "2027-03-09"), spread("2027-11-30")),
        "2028-01-25",
        "opens-later",
        [
            "2028-01 ...................xxxxxxxxxxxx",
            "2028-02 xxxxxxxxxxxxxxxxxxxxxxxxxxxx*",
            "2028-03 ooooooooooooooooooooooooooooooo",
        ],
        id="which is the 29th in a leap year",
    ),
    pytest.param(
        (LAST, spread("2027-03-10", "2027-03-12", standing="planned")),
        "2027-01-25",
        "open-today",
        [
            "2027-01 ...................-----ooooooo",
            "2027-02 ooooooooooooooooooo*oooooooo",
            "2027-03 oooooooooxxxxxxxxxxxxxxxxxxxxxx",
        ],
        id="days before a planned spreading stay open",
    ),
    pytest.param(
        (LAST, spread("2027-02-01", standing="planned")),
        "2027-02-10",
        "no-day-left",
        [
            "2027-01 ...................------------",
            "2027-02 xxxxxxxxxxxxxxxxxxxxxxxxxxxx",
            "2027-03 xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx",
        ],
        id="a plan that passed still closes",
    ),
    pytest.param(
        (LAST,),
        "2027-03-01",
        "open-today",
        [
            "2027-01 ...................------------",
            "2027-02 ----------------------------",
            "2027-03 *oooooooooooooooooooooooooooooo",
        ],
        id="once the best day has passed the first day from now on is best",
    ),
    pytest.param(
        (LAST,),
        "2027-03-20",
        "last-days",
        [
            "2027-01 ...................------------",
            "2027-02 ----------------------------",
            "2027-03 -------------------*ooooooooooo",
        ],
        id="the last days of a season",
    ),
    pytest.param(
        (sampled("2026-01-25", "2026-02-09"), spread("2026-12-20")),
        "2027-01-25",
        "opens-later",
        [
            "2027-01 ...................xxxxxxxxxxxx",
            "2027-02 xxxxxxxxxxxxxxxxxxxxxxxxxxxx",
            "2027-03 xxxxxxxxxxxxxxxxxxx*ooooooooooo",
        ],
        id="a gap pushes the day out of the tolerance",
    ),
    pytest.param(
        (),
        "2026-10-01",
        "opens-later",
        [
            "2027-01 ...................oooooooooooo",
            "2027-02 ooooooooooooooooooooooo*oooo",
            "2027-03 ooooooooooooooooooooooooooooooo",
        ],
        id="a first-year task aims at the middle",
    ),
    pytest.param(
        (sampled("2025-02-20", "2025-03-09"),),
        "2026-05-15",
        "overdue",
        [
            "2027-01 ...................oooooooooooo",
            "2027-02 ooooooooooooooooooo*oooooooo",
            "2027-03 ooooooooooooooooooooooooooooooo",
        ],
        id="an overdue task is scheduled in the next season",
    ),
    pytest.param(
        (
            sampled("2026-02-15", "2026-03-09"),
            spread("2027-02-15", "2027-02-16", months=0, standing="planned", override="foliar spray"),
        ),
        "2027-01-25",
        "open-today",
        [
            "2027-01 ...................-----ooooooo",
            "2027-02 ooooooooooooo*xxoooooooooooo",
            "2027-03 ooooooooooooooooooooooooooooooo",
        ],
        id="without a gap only the spreading itself closes",
    ),
    pytest.param(
        (LAST, spread("?", "2026-12-10")),
        "2027-01-25",
        "opens-later",
        [
            "2027-01 ...................xxxxxxxxxxxx",
            "2027-02 xxxxxxxxxxxxxxxxxxxxxxxxxxxx",
            "2027-03 xxxxxxxxx*ooooooooooooooooooooo",
        ],
        id="spread at the latest on a day closes all days before",
    ),
    pytest.param(
        (LAST, spread("?")),
        "2027-01-25",
        "not-known",
        [
            "2027-01 ...................????????????",
            "2027-02 ????????????????????????????",
            "2027-03 ???????????????????????????????",
        ],
        id="spread nobody knows when: no day is clear",
    ),
    pytest.param(
        (LAST, spread("2026-12-20", standing="cancelled"), spread("2026-12-21", counts=False)),
        "2027-01-25",
        "open-today",
        [
            "2027-01 ...................-----ooooooo",
            "2027-02 ooooooooooooooooooo*oooooooo",
            "2027-03 ooooooooooooooooooooooooooooooo",
        ],
        id="what was cancelled, or does not count, closes nothing",
    ),
    pytest.param(
        (LAST, spread("2026-10-28"), spread("2027-02-10", standing="planned", line=3)),
        "2027-01-25",
        "opens-later",
        [
            "2027-01 ...................xxxxxxxxoooo",
            "2027-02 oooooooo*xxxxxxxxxxxxxxxxxxx",
            "2027-03 xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx",
        ],
        id="days left between two spreadings",
    ),
]


@pytest.mark.parametrize(("records", "as_of", "state", "calendar"), CASES)
def test_a_calendar_drawn_by_hand(records, as_of: str, state: str, calendar: list[str]) -> None:  # noqa: ANN001
    """The season is late summer, 20 January to 31 March, and the interval a year."""
    window = window_of(a_task(*records), day(as_of))
    assert drawn(window, day(as_of)) == calendar
    assert window.state == state


def test_a_season_that_wraps_the_year_end() -> None:
    """15 November to the end of February, last sampled on 20 December."""
    task = a_task(sampled("2025-12-20", "2026-01-09"), season=seasons("11-15..02-29"))
    window = window_of(task, day("2026-10-01"))
    assert drawn(window, day("2026-10-01")) == [
        "2026-11 ..............oooooooooooooooo",
        "2026-12 ooooooooooooooooooo*ooooooooooo",
        "2027-01 ooooooooooooooooooooooooooooooo",
        "2027-02 oooooooooooooooooooooooooooo",
    ]
    assert window.season.label == "2026/27"


def test_ph_waits_after_lime_while_the_day_is_open() -> None:
    """Lime spread last April closes no day of this season, but pH is not ready on the preferred day."""
    lime = spread("2026-04-01", material_class="lime")
    window = window_of(a_task(LAST, lime, waits=(AnalysisWait("lime", ("ph",), 12, "a handbook"),)), day("2027-01-25"))
    assert drawn(window, day("2027-01-25")) == [
        "2027-01 ...................-----ooooooo",
        "2027-02 ooooooooooooooooooo*oooooooo",
        "2027-03 ooooooooooooooooooooooooooooooo",
    ]
    assert window.waiting_analyses == (("ph", day("2027-04-01")),)


def test_an_overdue_task_keeps_the_season_it_missed() -> None:
    """`due` is the missed season, `season` the one that the answer is about."""
    window = window_of(a_task(sampled("2025-02-20", "2025-03-09")), day("2026-05-15"))
    assert (window.due.label, window.season.label, window.overdue_months) == ("2026", "2027", 1)


def test_closed_days_name_their_records() -> None:
    """Each application is named with the days of the season that it took, and no others."""
    first, second = spread("2026-10-28", line=3), spread("2027-03-10", line=4)
    window = window_of(a_task(LAST, second, first), day("2027-01-25"))
    assert window.closed == (
        (span("2027-01-20", "2027-01-27"), first.application.place),
        (span("2027-03-10", "2027-03-31"), second.application.place),
    )


def test_a_result_that_comes_in_later_is_not_shown_yet() -> None:
    """The answer shows what was known on the as-of date."""
    last = window_of(a_task(LAST), day("2026-03-01")).last_sampling
    assert last is not None
    assert (last.day, last.reported) == (day("2026-02-20"), None)


def test_the_best_day_has_passed_only_where_it_was_open() -> None:
    """A target that was closed anyway, with the best open day still to come, has not 'passed'."""
    window = window_of(a_task(LAST, spread("2026-12-10")), day("2027-03-01"))
    assert window.preferred == day("2027-03-10")
    assert Rule.BEST_DAY_PASSED not in {reason.rule for reason in window.reasons}
