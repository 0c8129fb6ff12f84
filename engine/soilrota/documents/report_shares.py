"""Shares of the cations as one bar: a piece a cation, its letters and figure in it, patterns besides colours."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from soilrota.documents.label_places import word_width
from soilrota.documents.svg import INK, LINE, OPEN, PAPER, SEASON, TARGET, hatch, picture, rectangle, text

WIDTH, HEIGHT = 660.0, 54.0
_TOP, _BAR = 18.0, 20.0
_WHOLE = 100.0
#: Room between two labels [px].
_BETWEEN = 9.0
_FILLS = (SEASON, TARGET, PAPER, OPEN, LINE)


def share_bar(shares: Sequence[tuple[str, float, str]], name: str) -> str:
    """Return the bar as SVG.

    Args:
        shares: name, share [%] and share in words of each cation, in order; together at most 100.
        name: what is shown, for the text alternative.
    """
    whole = max(_WHOLE, sum(share for _, share, _ in shares))
    parts: list[str] = []
    left = 0.0
    outside: list[tuple[float, str]] = []
    for number, (cation, share, words) in enumerate(shares):
        width = share / whole * WIDTH
        fill = _FILLS[number % len(_FILLS)]
        parts += _piece(left, width, fill, patterned=fill is OPEN)
        label = f"{cation} {words}"
        if word_width(label, 9) + 6 <= width:
            parts.append(text(left + 4, _TOP + 13.5, label, 9, **({"fill": PAPER} if fill is OPEN else {})))
        else:
            outside.append((left, label))
        left += width
    parts += [text(at, _TOP + _BAR + 12, label, 9) for at, label in _side_by_side(outside)]
    parts.append(rectangle(0, _TOP, WIDTH, _BAR, fill="none", stroke=INK, stroke_width=0.8))
    parts.append(text(0, 11, name, 9.5, font_weight="bold"))
    said = ", ".join(f"{cation} {words}" for cation, _, words in shares)
    return picture(WIDTH, HEIGHT, f"{name}: {said}.", parts)


def _side_by_side(labels: Sequence[tuple[float, str]]) -> list[tuple[float, str]]:
    """Return labels near where they are wanted, none upon another and none beyond the right edge."""
    placed: list[tuple[float, str]] = []
    free = 0.0
    for wanted, label in labels:
        placed.append((max(wanted, free), label))
        free = placed[-1][0] + word_width(label, 9) + _BETWEEN
    edge = WIDTH
    for number in reversed(range(len(placed))):
        at, label = placed[number]
        placed[number] = (min(at, edge - word_width(label, 9)), label)
        edge = placed[number][0] - _BETWEEN
    return placed


def _piece(left: float, width: float, fill: str, *, patterned: bool) -> Iterator[str]:
    """Yield one piece of the bar with its edge."""
    yield rectangle(left, _TOP, width, _BAR, fill=fill, stroke=INK, stroke_width=0.6)
    if patterned and width < _BAR:
        yield hatch(left, _TOP, width, _BAR)
