"""How long layouts take: zones of about 60 corners with four places to avoid, by pattern, at N and at 2 N.

Prints the time a zone and the ratio of the two, which is 1 where the cost is linear; nothing here is a promise in
seconds. Run it from the top of the checkout: `sh .ci/with python tests/benchmarks/bench_layout.py`; with `--long`
10,000 and 20,000 zones are laid out, in all four patterns in turn.
"""

from __future__ import annotations

import math
import random
import sys
from pathlib import Path
from time import perf_counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from soilrota.model.layout import LayoutWish, Pattern

ROOT = Path(__file__).resolve().parents[2]
CORNERS = 60
FEW, MANY = 50, 10_000


def a_wish(number: int, pattern: Pattern) -> LayoutWish:
    """Return a concave zone of some 20 ha with two troughs, a tree line and a stock camp."""
    from soilrota.geometry.projection import LocalGrid
    from soilrota.model.ground import AvoidedPlace, Outline
    from soilrota.model.layout import LayoutWish
    from soilrota.model.protocol import Layer
    from soilrota.problems import Place

    chance = random.Random(number)
    grid = LocalGrid(chance.uniform(-180, 180), chance.uniform(-60, 60))
    place = Place("map.geojson")
    radii = [230 + 60 * math.sin(3 * math.tau * i / CORNERS + number) + chance.uniform(-25, 25) for i in range(CORNERS)]
    ring = [(r * math.cos(math.tau * i / CORNERS), r * math.sin(math.tau * i / CORNERS)) for i, r in enumerate(radii)]

    def avoided(kind: str, shape: str, corners: int) -> AvoidedPlace:
        at = [(chance.uniform(-250, 250), chance.uniform(-250, 250)) for _ in range(corners)]
        return AvoidedPlace("home", kind, "", shape, (tuple(grid.degrees(at)),), None, place)

    return LayoutWish(
        outline=Outline(((tuple(grid.degrees([*ring, ring[0]])),),), place),
        avoided=(
            avoided("trough", "point", 1),
            avoided("trough", "point", 1),
            avoided("tree-line", "line", 3),
            avoided("stock-camp", "point", 1),
        ),
        access=grid.degrees([(-300, -300)])[0],
        pattern=pattern,
        layers=(Layer(0, 10, 25), Layer(10, 30, 8)),
        seed=str(number),
    )


def milliseconds_a_zone(first: int, number: int, pattern: Pattern | None) -> tuple[float, int]:
    """Return the time for so many zones [ms a zone], and how many got another pattern or none; None: all in turn."""
    from soilrota.guidelines.layout import layout_figures
    from soilrota.layout import layout_of
    from soilrota.model.layout import Pattern

    patterns = tuple(Pattern) if pattern is None else (pattern,)
    spent, other = 0.0, 0
    for zone in range(first, first + number):
        wish = a_wish(zone, patterns[zone % len(patterns)])
        start = perf_counter()
        layout = layout_of(wish, layout_figures())
        spent += perf_counter() - start
        other += layout.pattern is not wish.pattern
    return 1000 * spent / number, other


def main() -> None:
    """Print one row a pattern, or one for all with `--long`."""
    from soilrota.model.layout import Pattern

    number = MANY if "--long" in sys.argv else FEW
    milliseconds_a_zone(0, 4, None)  # loads and warms up what is loaded once
    print("pattern       zones   ms a zone |   zones   ms a zone | ratio | other pattern or none")
    for pattern in (None,) if number == MANY else (*Pattern, None):
        once, _ = milliseconds_a_zone(0, number, pattern)
        twice, other = milliseconds_a_zone(number, 2 * number, pattern)
        name = "all in turn" if pattern is None else pattern.value
        print(
            f"{name:12} {number:6} {once:11.2f} | {2 * number:7} {twice:11.2f} | {twice / once:5.2f} | {other}",
            flush=True,
        )


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    main()
