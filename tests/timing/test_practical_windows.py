"""Windows worked by hand under every rule, each with its calendar drawn: weekdays, leave, decisions, moisture.

2027: 1 January is a Friday, 1 February and 1 March are Mondays, 1 April is a Thursday; Easter Sunday is 28 March.
With the drawings of `test_windows.py` these are the frozen forty.
"""

from __future__ import annotations

from calendar import monthrange
from dataclasses import replace
from datetime import date

import pytest

from soilrota.model.moisture import CALENDAR_DAYS, Likelihood, MoistureOutlook, calendar_index
from soilrota.model.practice import Laboratory
from soilrota.model.windows import Closure, DecisionDay, Task, Window, WorkCalendar
from soilrota.problems import Place
from soilrota.timing import window_of
from tests.timing.making import a_task, day, sampled, seasons, span, spread

LAST = sampled("2026-02-20", "2026-03-09")
WEEK = WorkCalendar((1, 2, 3, 4, 5))
VICTORIA = WorkCalendar((1, 2, 3, 4, 5), "AU", "VIC")
BENCH = Laboratory("bench", "Bench", "AU", 8, 2, (1, 2, 3, 4), Place("laboratories/bench.yaml"))
QUICK = Laboratory("quick", "Quick", "AU", 3, 0, (1, 2, 3, 4, 5), Place("laboratories/quick.yaml"))
HERE = Place("client.yaml", 50)
FEBRUARY_AND_MARCH = seasons("02-01..03-14")


def drawn(window: Window, as_of: date) -> list[str]:
    """Return the months of the season, one character a day.

    `.` out of season, `x` closed, `-` open but past, `w` open but nobody works or the bag would not keep, `l` open but
    late for the decision, `o` open and in time, `*` the preferred day.
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
    if found == window.preferred:
        return "*"
    if not any(found in one for one in window.season_open):
        return "x"
    if found < as_of:
        return "-"
    if not any(found in one for one in window.workable):
        return "w"
    return "o" if any(found in one for one in window.on_time) else "l"


def away(kind: str, first: str, last: str) -> Closure:
    """Return leave or a blackout."""
    return Closure(kind, span(first, last), "a reason", HERE)


def decide(on: str) -> DecisionDay:
    """Return a decision."""
    return DecisionDay(day(on), "the order", HERE)


def moist_from(first: str, wanted: str = "moist") -> MoistureOutlook:
    """Return an outlook that is right from a day of the year on, to the end of the year."""
    begins = calendar_index(day(first))
    days = range(CALENDAR_DAYS)
    likelihoods = tuple(Likelihood.MOSTLY if number >= begins else Likelihood.SELDOM for number in days)
    return MoistureOutlook("merrow", 12, wanted, likelihoods, None)


def task(*records: object, **more: object) -> Task:
    """Return a task of 1 February to 14 March, worked from Monday to Friday unless said otherwise."""
    plain = a_task(*records, season=FEBRUARY_AND_MARCH)  # type: ignore[arg-type]
    return replace(plain, **{"calendar": WEEK, **more})  # type: ignore[arg-type]


CASES: dict[str, tuple[Task, str, str, list[str]]] = {
    "the anniversary falls on a Saturday, the Friday before it is nearest": (
        task(LAST),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 ooooowwooooowwoooo*wwoooooww",
            "2027-03 ooooowwoooooww.................",
        ],
    ),
    "the anniversary falls on a Sunday, the Monday after it is nearest": (
        task(sampled("2026-02-21", "2026-03-09")),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 ooooowwooooowwoooooww*ooooww",
            "2027-03 ooooowwoooooww.................",
        ],
    ),
    "every day is worked": (
        task(LAST, calendar=WorkCalendar()),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 ooooooooooooooooooo*oooooooo",
            "2027-03 oooooooooooooo.................",
        ],
    ),
    "only Tuesdays and Thursdays are worked": (
        task(LAST, calendar=WorkCalendar((2, 4))),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 wowowwwwowowwwwow*wwwwowowww",
            "2027-03 wowowwwwowowww.................",
        ],
    ),
    "a public holiday is no working day: Labour Day on 8 March": (
        task(sampled("2026-03-08", "2026-03-20"), calendar=VICTORIA),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 ooooowwooooowwooooowwoooooww",
            "2027-03 ooooowww*oooww.................",
        ],
    ),
    "leave closes the days around the anniversary": (
        task(LAST, calendar=WorkCalendar((1, 2, 3, 4, 5), closures=(away("leave", "2027-02-15", "2027-02-26"),))),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 ooooowwoooo*wwxxxxxxxxxxxxww",
            "2027-03 ooooowwoooooww.................",
        ],
    ),
    "a blackout takes the end of the season": (
        task(LAST, calendar=WorkCalendar((1, 2, 3, 4, 5), closures=(away("blackout", "2027-02-18", "2027-04-30"),))),
        "2027-02-02",
        "open-today",
        [
            "2027-02 -oooowwooooowwoo*xxxxxxxxxxx",
            "2027-03 xxxxxxxxxxxxxx.................",
        ],
    ),
    "leave and a gap together leave a few days": (
        task(
            LAST,
            spread("2026-11-10"),
            calendar=WorkCalendar((1, 2, 3, 4, 5), closures=(away("leave", "2027-02-15", "2027-03-10"),)),
        ),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 xxxxxxxxxoo*wwxxxxxxxxxxxxxx",
            "2027-03 xxxxxxxxxxooww.................",
        ],
    ),
    "a blackout of the whole season leaves no day": (
        task(LAST, calendar=WorkCalendar(closures=(away("blackout", "2027-01-01", "2027-03-31"),))),
        "2027-02-02",
        "no-day-left",
        [
            "2027-02 xxxxxxxxxxxxxxxxxxxxxxxxxxxx",
            "2027-03 xxxxxxxxxxxxxx.................",
        ],
    ),
    "only a Sunday is left, and nobody works": (
        task(LAST, calendar=WorkCalendar((1, 2, 3, 4, 5), closures=(away("blackout", "2027-01-01", "2027-03-13"),))),
        "2027-03-12",
        "no-day-left",
        [
            "2027-02 xxxxxxxxxxxxxxxxxxxxxxxxxxxx",
            "2027-03 xxxxxxxxxxxxxw.................",
        ],
    ),
    "a decision far ahead changes nothing": (
        task(LAST, laboratory=BENCH, decisions=(decide("2027-05-01"),)),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 ooooowwooooowwoooo*wwoooooww",
            "2027-03 ooooowwoooooww.................",
        ],
    ),
    "a decision makes the last weeks late": (
        task(LAST, laboratory=BENCH, decisions=(decide("2027-03-12"),)),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 ooooowwooooowwoooo*wwoooooww",
            "2027-03 lllllwwlllllww.................",
        ],
    ),
    "a decision before the anniversary pulls the day forward": (
        task(LAST, laboratory=BENCH, decisions=(decide("2027-02-26"),)),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 ooooowwoooo*wwlllllwwlllllww",
            "2027-03 lllllwwlllllww.................",
        ],
    ),
    "everything that is left is late: open, and none preferred": (
        task(LAST, laboratory=BENCH, decisions=(decide("2027-02-26"),)),
        "2027-02-16",
        "late-for-decision",
        [
            "2027-02 ---------------llllwwlllllww",
            "2027-03 lllllwwlllllww.................",
        ],
    ),
    "of two decisions the first one counts": (
        task(LAST, laboratory=BENCH, decisions=(decide("2027-04-30"), decide("2027-03-05"))),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 ooooowwooooowwoooo*wwlllllww",
            "2027-03 lllllwwlllllww.................",
        ],
    ),
    "a decision before the season is for another year": (
        task(LAST, laboratory=BENCH, decisions=(decide("2027-01-25"),)),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 ooooowwooooowwoooo*wwoooooww",
            "2027-03 ooooowwoooooww.................",
        ],
    ),
    "without a laboratory the decision day itself is the last": (
        task(LAST, decisions=(decide("2027-02-24"),)),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 ooooowwooooowwoooo*wwooollww",
            "2027-03 lllllwwlllllww.................",
        ],
    ),
    "a quick laboratory without courier needs three working days": (
        task(LAST, laboratory=QUICK, decisions=(decide("2027-02-24"),)),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 ooooowwooooowwoooo*wwlllllww",
            "2027-03 lllllwwlllllww.................",
        ],
    ),
    "two days of keeping: Mondays and Tuesdays reach this bench in time": (
        task(LAST, laboratory=BENCH, holding_days=2),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 oowwwwwoowwwwwoowwwww*owwwww",
            "2027-03 oowwwwwoowwwww.................",
        ],
    ),
    "keeping and a decision together": (
        task(LAST, laboratory=BENCH, holding_days=2, decisions=(decide("2027-03-05"),)),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 oowwwwwoowwwwwo*wwwwwllwwwww",
            "2027-03 llwwwwwllwwwww.................",
        ],
    ),
    "moist only from 3 March on, within the tolerance": (
        task(LAST, moisture=moist_from("2027-03-03")),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 ooooowwooooowwooooowwoooooww",
            "2027-03 oo*oowwoooooww.................",
        ],
    ),
    "moist only from 10 March on, beyond a tolerance of ten days": (
        task(LAST, tolerance_days=10, moisture=moist_from("2027-03-10")),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 ooooowwooooowwoooo*wwoooooww",
            "2027-03 ooooowwoooooww.................",
        ],
    ),
    "never sampled, moist from 8 March on: the first such day, nearest to the middle": (
        task(moisture=moist_from("2027-03-08")),
        "2027-01-20",
        "opens-later",
        [
            "2027-02 ooooowwooooowwooooowwoooooww",
            "2027-03 oooooww*ooooww.................",
        ],
    ),
    "the best day has passed: the next worked day, a Monday": (
        task(LAST),
        "2027-02-20",
        "open-today",
        [
            "2027-02 -------------------ww*ooooww",
            "2027-03 ooooowwoooooww.................",
        ],
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_a_calendar_drawn_by_hand(name: str) -> None:
    """State and calendar are those that a person finds with pencil and rules."""
    asked, as_of, state, calendar = CASES[name]
    window = window_of(asked, day(as_of))
    assert (str(window.state), drawn(window, day(as_of))) == (state, calendar)


def test_there_are_forty_with_those_of_the_other_file() -> None:
    """The set is frozen: sixteen there, twenty-four here."""
    from tests.timing.test_windows import CASES as OTHERS

    assert len(OTHERS) + len(CASES) >= 40
