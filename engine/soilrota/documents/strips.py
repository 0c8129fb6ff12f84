"""The year strip: for every task its season, the days that are closed, the open days and the best one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise

from soilrota.documents.dates import long_day, month_letters, spans_words
from soilrota.documents.picture_keys import KeyPart, key_parts
from soilrota.documents.svg import (
    LINE,
    MUTED,
    OPEN,
    PAPER,
    SEASON,
    clip_words,
    diamond,
    hatch,
    line,
    picture,
    rectangle,
    text,
)
from soilrota.language import say
from soilrota.model.windows import Span

WIDTH = 660.0
_LABELS = 172.0
_RIGHT = 94.0
_ROW = 18.0
_HEAD = 24.0
_BAR = 9.0
_MONTHS = 15
#: So many rows stand in one picture; more go into the next one, with the months repeated.
ROWS_A_PICTURE = 30


@dataclass(frozen=True, slots=True)
class StripRow:
    """One task of the strip.

    Attributes:
        label: farm and zone.
        season: days of the season.
        closed: days of it that a record took.
        open: open days of it.
        best: the preferred day; None where there is none.
        note: short words at the right end.
    """

    label: str
    season: Span
    closed: tuple[Span, ...]
    open: tuple[Span, ...]
    best: date | None
    note: str


def year_strips(rows: Sequence[StripRow], language: str) -> tuple[str, ...]:
    """Return the strip as SVG pictures of at most 30 rows, all over the same 15 months."""
    if not rows:
        return ()
    first = min(row.season.first for row in rows).replace(day=1)
    months = [_month(first, index) for index in range(_MONTHS + 1)]
    groups = [rows[start : start + ROWS_A_PICTURE] for start in range(0, len(rows), ROWS_A_PICTURE)]
    return tuple(_strip(group, months, language) for group in groups)


def _month(first: date, index: int) -> date:
    """Return the first day of the month that lies `index` months after a first day."""
    years, month = divmod(first.month - 1 + index, 12)
    return date(first.year + years, month + 1, 1)


def _strip(rows: Sequence[StripRow], months: list[date], language: str) -> str:
    """Return one picture."""
    height = _HEAD + len(rows) * _ROW + 4
    parts = list(_months(months, height, language))
    for index, row in enumerate(rows):
        parts += _row(row, _HEAD + index * _ROW, months)
    return picture(WIDTH, height, _alternative(rows, language), parts)


def _alternative(rows: Sequence[StripRow], language: str) -> str:
    """Return what the strip shows, in words."""
    said = []
    for row in rows:
        days = spans_words(row.open, language) if row.open else say("no open day")
        if row.best:
            best = long_day(row.best, language)
            said.append(say("{label}: {days}, best on {best}", label=row.label, days=days, best=best))
        else:
            said.append(f"{row.label}: {days}")
    return say("Year strip. {tasks}.", tasks="; ".join(said))


def _months(months: list[date], height: float, language: str) -> Iterator[str]:
    """Yield the lines and names of the months, and each year above its first month."""
    for month, following in pairwise(months):
        x, end = _x(month, months), _x(following, months)
        begins_year = month.month == 1 or month == months[0]
        top = 2 if begins_year else _HEAD - 4
        yield line(x, top, x, height - 2, stroke=MUTED if month.month == 1 else LINE)
        yield text((x + end) / 2, _HEAD - 6, month_letters(month, language), 8.5, text_anchor="middle", fill=MUTED)
        if begins_year:
            yield text(x + 3, 8.5, str(month.year), 8.5, font_weight="bold", fill=MUTED)
    yield line(_x(months[-1], months), _HEAD - 4, _x(months[-1], months), height - 2)


def _x(day: date, months: list[date]) -> float:
    """Return where a day stands, kept inside the strip."""
    days = (months[-1] - months[0]).days
    share = min(max((day - months[0]).days / days, 0), 1)
    return _LABELS + share * (WIDTH - _LABELS - _RIGHT)


def _row(row: StripRow, top: float, months: list[date]) -> list[str]:
    """Return one task's row."""
    bar = top + (_ROW - _BAR) / 2
    parts = [
        line(0, top, WIDTH, top, stroke=SEASON),
        text(0, top + _ROW - 5.5, clip_words(row.label, _LABELS - 6, 9.5), 9.5),
        text(WIDTH - _RIGHT + 6, top + _ROW - 5.5, clip_words(row.note, _RIGHT - 6, 9), 9, fill=MUTED),
    ]
    if row.season.first > months[-1]:
        end = _x(months[-1], months)
        year = say("in {year}", year=row.season.first.year)
        bare = rectangle(end - 6 - 5.2 * len(year), bar, 5.2 * len(year) + 4, _BAR, fill=PAPER)
        return [*parts, bare, text(end - 3, top + _ROW - 5.5, year, 9, text_anchor="end", fill=MUTED)]
    parts.append(_bar(row.season, bar, months, fill=SEASON))
    for span in row.closed:
        start, width = _extent(span, months)
        parts.append(hatch(start, bar, width, _BAR))
    parts += [_bar(span, bar, months, fill=OPEN) for span in row.open]
    if row.best is not None:
        parts.append(diamond(_x(row.best, months), bar + _BAR / 2, 4.6))
    return parts


def _extent(span: Span, months: list[date]) -> tuple[float, float]:
    """Return where a span begins and how wide it is, at least a hair."""
    start, end = _x(span.first, months), _x(span.last + timedelta(days=1), months)
    return start, max(end - start, 0.8)


def _bar(span: Span, top: float, months: list[date], fill: str) -> str:
    """Return a span as a bar."""
    start, width = _extent(span, months)
    return rectangle(start, top, width, _BAR, fill=fill)


def strip_key() -> str:
    """Return the key of the strip: what each bar and mark means."""
    parts = [
        KeyPart(0, lambda left: rectangle(left, 4, 24, 9, fill=SEASON), 29, say("season")),
        KeyPart(82, lambda left: hatch(left, 4, 24, 9), 29, say("closed, after spreading or otherwise")),
        KeyPart(296, lambda left: rectangle(left, 4, 24, 9, fill=OPEN), 29, say("open for sampling")),
        KeyPart(432, lambda left: diamond(left, 8.5, 4.8), 9, say("best day")),
    ]
    title = say("Key: pale bar season, hatched closed, dark bar open, diamond best day.")
    return picture(WIDTH, 16, title, key_parts(parts))
