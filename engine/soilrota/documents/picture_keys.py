"""The line below pictures that says what each bar and mark means, with room for the words of any language."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from soilrota.documents.fonts import width_em
from soilrota.documents.svg import INK, text

_SIZE = 9.5
_BASE = 12.0
_GAP = 12.0


@dataclass(frozen=True, slots=True)
class KeyPart:
    """One mark of a key and its words.

    Attributes:
        left: where it stands unless the words before it are longer [px].
        drawn: returns the mark, given where it stands [px].
        wide: from there to the words [px].
        words: what it means.
    """

    left: float
    drawn: Callable[[float], str]
    wide: float
    words: str


def key_parts(parts: Iterable[KeyPart]) -> list[str]:
    """Return the marks and words of a key as SVG, from left to right; none covers another."""
    drawn: list[str] = []
    end = 0.0
    for part in parts:
        left = max(part.left, end)
        begins = left + part.wide
        drawn += [part.drawn(left), text(begins, _BASE, part.words, _SIZE, fill=INK)]
        end = begins + width_em(part.words) * _SIZE + _GAP
    return drawn
