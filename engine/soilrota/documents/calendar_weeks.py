"""One week of the field calendar as a picture: a row a person, a column a day, bars as long as the work and driving."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, timedelta

from soilrota.documents.calendar_words import weekday_letters
from soilrota.documents.dates import joined, long_day
from soilrota.documents.picture_keys import KeyPart, key_parts
from soilrota.documents.svg import LINE, MUTED, OPEN, PAPER, clip_words, hatch, line, picture, rectangle, text
from soilrota.language import say, say_as
from soilrota.model.field_calendar import CalendarWeek, PersonDay, VisitLabel

WIDTH = 660.0
_LABELS = 84.0
_HEAD = 20.0
_BAR = 9.0
_LINE = 11.0
_WORKING_DAYS = 5
_WEEK = 7


def week_picture(
    week: CalendarWeek, names: Mapping[str, str], longest: int, labels: Mapping[str, VisitLabel], language: str
) -> str:
    """Return a week as SVG.

    Args:
        week: the week.
        names: of people, by id.
        longest: minutes that a whole column stands for [min].
        labels: what people call each visit, by its id.
        language: language tag.
    """
    columns = _columns(week)
    rows = [(person, cells) for person, cells in week.people if any(cells)]
    heights = [_LINE * max(len(cell.stops) for cell in cells if cell) + _BAR + 12 for _, cells in rows]
    height = _HEAD + sum(heights) + 2
    width = (WIDTH - _LABELS) / columns
    parts = list(_heads(week, columns, width, height, language))
    top = _HEAD
    for (person, cells), tall in zip(rows, heights, strict=True):
        parts += [line(0, top, WIDTH, top), text(0, top + 14, clip_words(names[person], _LABELS - 6, 9.5), 9.5)]
        for number, cell in enumerate(cells[:columns]):
            if cell is not None:
                parts += _cell(cell, (_LABELS + number * width + 4, top + 5), width - 8, longest, labels)
        top += tall
    parts.append(line(0, top, WIDTH, top))
    return picture(WIDTH, height, _alternative(rows, names, labels, language), parts)


def _columns(week: CalendarWeek) -> int:
    """Return how many days are shown: the weekend only where somebody works on it."""
    planned = (number for _, cells in week.people for number, cell in enumerate(cells) if cell is not None)
    return _WEEK if max(planned, default=0) >= _WORKING_DAYS else _WORKING_DAYS


def _heads(week: CalendarWeek, columns: int, width: float, height: float, language: str) -> Iterator[str]:
    """Yield the names of the days and the lines between them."""
    for number in range(columns):
        x = _LABELS + number * width
        day = week.monday + timedelta(days=number)
        yield line(x, 2, x, height - 2)
        yield text(x + 4, 13, day_name(day, language), 9.5, font_weight="bold", fill=MUTED)


def day_name(day: date, language: str) -> str:
    """Return a weekday and the day of the month.

    >>> day_name(date(2027, 3, 1), "en-GB")
    'Mon 1'
    """
    return say_as("day", "{weekday} {day}", weekday=weekday_letters(day, language), day=day.day)


def _cell(
    cell: PersonDay, corner: tuple[float, float], width: float, longest: int, labels: Mapping[str, VisitLabel]
) -> list[str]:
    """Return one day of one person: bars for the stops, hatched for driving, and the farms beneath."""
    left, top = corner
    parts = [rectangle(left, top, width, _BAR, fill=PAPER, stroke=LINE, stroke_width=0.6)]
    x = left
    for number, stop in enumerate(cell.stops, start=1):
        bar = width * stop.minutes / longest
        parts.append(rectangle(x, top, bar, _BAR, fill=OPEN, stroke=PAPER, stroke_width=0.8))
        if bar > _BAR:
            parts.append(text(x + bar / 2, top + 7.3, str(number), 7.5, fill=PAPER, text_anchor="middle"))
        words = f"{number} {labels[stop.visit].farm}"
        parts.append(text(left, top + _BAR + number * _LINE - 1, clip_words(words, width, 8.5), 8.5))
        x += bar
    driving = width * cell.travel_minutes / longest
    if driving > 0:
        parts.append(hatch(x, top, min(driving, left + width - x), _BAR))
    return parts


def _alternative(
    rows: Iterable[tuple[str, tuple[PersonDay | None, ...]]],
    names: Mapping[str, str],
    labels: Mapping[str, VisitLabel],
    language: str,
) -> str:
    """Return what the picture shows, in words."""
    said = [
        say(
            "{person} on {day}: {farms}",
            person=names[person],
            day=long_day(cell.day, language),
            farms=joined([labels[stop.visit].farm for stop in cell.stops]),
        )
        for person, cells in rows
        for cell in cells
        if cell is not None
    ]
    return say("Week plan. {days}.", days="; ".join(said))


def week_key() -> str:
    """Return the key of the pictures."""
    parts = [
        KeyPart(
            0,
            lambda left: rectangle(left, 4, 24, _BAR, fill=OPEN),
            29,
            say("work on a farm, numbered in driving order"),
        ),
        KeyPart(252, lambda left: hatch(left, 4, 24, _BAR), 29, say_as("key", "driving")),
        KeyPart(
            332,
            lambda left: rectangle(left, 4, 24, _BAR, fill=PAPER, stroke=LINE, stroke_width=0.6),
            29,
            say("time left of the longest field day"),
        ),
    ]
    title = say("Key: full bars work on a farm, hatched bars driving, empty bars time left.")
    return picture(WIDTH, 16, title, key_parts(parts))
