"""Where the words of a map go, so that none covers a mark or another word."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import pairwise

from soilrota.documents.map_frame import Point

#: Width of a digit or letter and height of a capital, as shares of the letters' size [-].
_WIDE, _HIGH = 0.58, 0.74
_GAP = 2.5
#: Directions in which a word may stand of its mark, the best first.
_SIDES = ((1, -1), (-1, -1), (1, 1), (-1, 1), (0, -1), (0, 1), (1, 0), (-1, 0))
_STEPS = (0.0, 5.0)


@dataclass(frozen=True, slots=True)
class Box:
    """A box on the page [px]."""

    left: float
    top: float
    right: float
    bottom: float

    def covers(self, other: Box) -> bool:
        """Return whether two boxes share room."""
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )

    def inside(self, other: Box) -> bool:
        """Return whether this box lies wholly in another."""
        return (
            other.left <= self.left
            and self.right <= other.right
            and other.top <= self.top
            and self.bottom <= other.bottom
        )

    def crossed(self, first: Point, last: Point) -> bool:
        """Return whether a straight line passes through the box (Liang and Barsky's clipping)."""
        low, high = 0.0, 1.0
        steps = ((first[0], last[0], self.left, self.right), (first[1], last[1], self.top, self.bottom))
        for start, end, least, most in steps:
            run = end - start
            if run == 0:
                if not least <= start <= most:
                    return False
                continue
            near, far = sorted(((least - start) / run, (most - start) / run))
            low, high = max(low, near), min(high, far)
        return low <= high


def around(point: Point, radius: float) -> Box:
    """Return the box round a mark."""
    return Box(point[0] - radius, point[1] - radius, point[0] + radius, point[1] + radius)


def word_width(words: str, size: float) -> float:
    """Return how wide words of a size are at most [px]."""
    return len(words) * size * _WIDE


@dataclass(slots=True)
class Places:
    """Room on a map: what is taken, and lines that words had better not cross.

    Attributes:
        room: the whole map.
        taken: boxes of marks and words.
        lines: lines that words may cross where there is no other room.
    """

    room: Box
    taken: list[Box] = field(default_factory=list)
    lines: list[tuple[Point, Point]] = field(default_factory=list)

    def keep_clear(self, line: Iterable[Point]) -> None:
        """Add a line that words had better not cross."""
        self.lines += pairwise(line)

    def place(
        self, point: Point, radius: float, words: str, size: float, steps: tuple[float, ...] = _STEPS
    ) -> Box | None:
        """Return a free box for words beside a mark, and take it; None where there is none.

        Args:
            point: the mark's middle [px].
            radius: half its width [px].
            words: the words.
            size: their size [px].
            steps: how far from the mark they may stand [px], from the nearest.
        """
        width, height = word_width(words, size), size * _HIGH
        best: tuple[int, int, Box] | None = None
        for index, (step, (right, down)) in enumerate((step, side) for step in steps for side in _SIDES):
            away = radius + _GAP + step
            nearer = 0.8 if right and down else 1.0
            x = point[0] + right * (away * nearer + width / 2)
            y = point[1] + down * (away * nearer + height / 2)
            box = Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)
            if not box.inside(self.room) or any(box.covers(other) for other in self.taken):
                continue
            crossed = sum(box.crossed(*line) for line in self.lines)
            if best is None or (crossed, index) < best[:2]:
                best = (crossed, index, box)
            if best[0] == 0 and step > 0:
                break
        if best is None:
            return None
        self.taken.append(best[2])
        return best[2]
