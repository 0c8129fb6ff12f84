"""One analysis down the profile: a bar a layer, the surface at the top, each with its value."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from soilrota.documents.svg import INK, LINE, MUTED, OPEN, PAPER, clip_words, line, picture, rectangle, text
from soilrota.language import say

WIDTH = 205.0
_LEFT, _ROW, _HEAD, _LONGEST = 44.0, 18.0, 18.0, 86.0


@dataclass(frozen=True, slots=True)
class ProfileLayer:
    """One layer: its depth and its value in words, the number [unit] and whether it is censored."""

    depth: str
    value: float
    words: str
    is_censored: bool = False


def depth_profile(layers: Sequence[ProfileLayer], name: str) -> str:
    """Return the profile as SVG.

    Args:
        layers: from the surface down; at least one.
        name: what is shown.
    """
    most = max(*(layer.value for layer in layers), 0.0) or 1.0
    height = _HEAD + _ROW * len(layers) + 4
    parts = [text(0, 10, clip_words(name, WIDTH, 9), 9, font_weight="bold")]
    for number, layer in enumerate(layers):
        top = _HEAD + number * _ROW
        parts.append(text(0, top + 12, layer.depth, 8, fill=MUTED))
        fill = PAPER if layer.is_censored else OPEN
        width = max(layer.value / most * _LONGEST, 1)
        parts.append(rectangle(_LEFT, top + 3, width, _ROW - 6, fill=fill, stroke=INK, stroke_width=0.7))
        parts.append(text(_LEFT + width + 4, top + 12, layer.words, 8.5))
    parts.append(line(_LEFT, _HEAD, _LEFT, height - 4, stroke=LINE, stroke_width=1))
    said = ", ".join(say("{value} at {depth}", value=layer.words, depth=layer.depth) for layer in layers)
    return picture(WIDTH, height, say("{analysis} by depth: {values}.", analysis=name, values=said), parts)
