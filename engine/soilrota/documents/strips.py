"""The year strip: for every task its season, the days that are closed, the open days and the best one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from soilrota.documents.dates import long_day, month_letters, spans_words
from soilrota.documents.svg import (
    INK,
    LINE,
    MUTED,
    OPEN,
    SEASON,
    clip_words,
    diamond,
    hatch,
    line,
    picture,
    rectangle,
    text,
)
from soilrota.model.windows import Span

WIDTH = 660.0
_LABELS = 150.0
_RIGHT = 86.0
_ROW = 15.0
_HEAD = 18.0
_BAR = 8.0
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
        days = spans_words(row.open, language) if row.open else "no open day"
        best = f", best on {long_day(row.best, language)}" if row.best else ""
        said.append(f"{row.label}: {days}{best}")
    return f"Year strip. {'; '.join(said)}."


def _months(months: list[date], height: float, language: str) -> Iterator[str]:
    """Yield the lines and names of the months."""
    for month, following in zip(months, months[1:], strict=False):
        x = _x(month, months)
        strong = month.month == 1
        yield line(x, 4 if strong else _HEAD - 5, x, height - 2, stroke=MUTED if strong else LINE)
        name = month_letters(month, language)
        if strong or month == months[0]:
            name = f"{name} {month.year}" if _x(following, months) - x > 0 else name
        middle = (x + _x(following, months)) / 2
        yield text(middle, 11, name if len(name) < 5 else name.split()[0], 7, text_anchor="middle", fill=MUTED)  # noqa: PLR2004  # a short month fits
        if strong or month == months[0]:
            yield text(x + 2, 4.5, str(month.year), 5.5, fill=MUTED)
    yield line(_x(months[-1], months), _HEAD - 5, _x(months[-1], months), height - 2)


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
        text(0, top + _ROW - 4.5, clip_words(row.label, _LABELS - 6, 7.5), 7.5),
        text(WIDTH - _RIGHT + 6, top + _ROW - 4.5, clip_words(row.note, _RIGHT - 6, 7), 7, fill=MUTED),
    ]
    if row.season.first > months[-1]:
        end = _x(months[-1], months)
        return [*parts, text(end - 3, top + _ROW - 4.5, f"{row.season.first.year} →", 7, text_anchor="end", fill=MUTED)]
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
        rectangle(0, 4, 22, 8, fill=SEASON),
        text(27, 11, "season", 7.5),
        hatch(76, 4, 22, 8),
        text(103, 11, "closed after (or for) spreading", 7.5),
        rectangle(240, 4, 22, 8, fill=OPEN),
        text(267, 11, "open for sampling", 7.5),
        diamond(356, 8, 4.6),
        text(365, 11, "best day", 7.5, fill=INK),
    ]
    return picture(WIDTH, 16, "Key: pale bar season, hatched closed, dark bar open, diamond best day.", parts)
