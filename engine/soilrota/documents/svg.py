"""Small pieces of SVG, written by hand: real text, no styles but attributes, a text alternative for each picture."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

INK = "#26332c"
MUTED = "#66706a"
LINE = "#b9c2b6"
SEASON = "#e9ede3"
OPEN = "#4f7a5b"
CLOSED = "#8a6a3f"
TARGET = "#dfe8dd"
PAPER = "#ffffff"


def picture(width: float, height: float, title: str, parts: Iterable[str]) -> str:
    """Return an SVG picture of a size [px] with its text alternative."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{figure(width)}" height="{figure(height)}" '
        f'viewBox="0 0 {figure(width)} {figure(height)}" font-family="Open Sans"><title>{escape(title)}</title>'
        f"{''.join(parts)}</svg>"
    )


def figure(value: float) -> str:
    """Return a number with at most two decimals.

    >>> figure(3.0), figure(2.126)
    ('3', '2.13')
    """
    return f"{value:.2f}".rstrip("0").rstrip(".")


def attributes(values: dict[str, str | float]) -> str:
    """Return attributes; underscores in names become hyphens."""
    return "".join(
        f' {name.replace("_", "-")}="{escape(value) if isinstance(value, str) else figure(value)}"'
        for name, value in values.items()
    )


def text(x: float, y: float, words: str, size: float = 8, **more: str | float) -> str:
    """Return words at a place; `size` is the height of the letters [px]."""
    placed = attributes({"x": x, "y": y, "font_size": size, "fill": INK, **more})
    return f"<text{placed}>{escape(words)}</text>"


def rectangle(x: float, y: float, width: float, height: float, **more: str | float) -> str:
    """Return a rectangle."""
    return (
        f'<rect x="{figure(x)}" y="{figure(y)}" width="{figure(width)}" height="{figure(height)}"{attributes(more)}/>'
    )


def line(x1: float, y1: float, x2: float, y2: float, **more: str | float) -> str:
    """Return a straight line."""
    drawn = attributes({"stroke": LINE, "stroke_width": 0.6, **more})
    return f'<line x1="{figure(x1)}" y1="{figure(y1)}" x2="{figure(x2)}" y2="{figure(y2)}"{drawn}/>'


def path(data: str, **more: str | float) -> str:
    """Return a path of drawing commands."""
    return f'<path d="{data}"{attributes(more)}/>'


def circle(x: float, y: float, radius: float, **more: str | float) -> str:
    """Return a circle."""
    return f'<circle cx="{figure(x)}" cy="{figure(y)}" r="{figure(radius)}"{attributes(more)}/>'


def polyline(points: Iterable[tuple[float, float]], *, closed: bool = False) -> str:
    """Return the drawing commands of a line through points."""
    steps = [f"{figure(x)} {figure(y)}" for x, y in points]
    return f"M{'L'.join(steps)}{'Z' if closed else ''}" if steps else ""


def hatch(x: float, y: float, width: float, height: float, step: float = 3) -> str:
    """Return a rectangle filled with slanting lines, readable in grey."""
    strokes = []
    offset = -height
    while offset < width:
        left, right = max(offset, 0), min(offset + height, width)
        if right > left:
            strokes.append(
                f"M{figure(x + left)} {figure(y + height - (left - offset))}"
                f"L{figure(x + right)} {figure(y + height - (right - offset))}"
            )
        offset += step
    frame = rectangle(x, y, width, height, fill="none", stroke=CLOSED, stroke_width=0.5)
    return path("".join(strokes), stroke=CLOSED, stroke_width=0.7, fill="none") + frame


def diamond(x: float, y: float, radius: float) -> str:
    """Return the mark of a preferred day."""
    points = ((x, y - radius), (x + radius, y), (x, y + radius), (x - radius, y))
    return path(polyline(points, closed=True), fill=INK, stroke=PAPER, stroke_width=0.8)


def clip_words(words: str, width: float, size: float = 8) -> str:
    """Return words that fit a width [px], cut with an ellipsis where they must be."""
    most = max(int(width / (size * 0.56)), 1)
    return words if len(words) <= most else f"{words[: most - 1].rstrip()}…"
