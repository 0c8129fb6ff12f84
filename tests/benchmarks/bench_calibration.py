"""Whether what is said of zones comes true: a reliability table of the probability of lying under the line.

Zones are simulated as `tests/agronomy/simulated.py` says: cores of a log-normal soil, mixed, analysed by a laboratory
that is off by its cited part. For each tenth of probability the table shows how many zones fell in it, what was said on
average, and how many of them truly lay under the line. Run it from the top of the checkout:
`sh .ci/with python tests/benchmarks/bench_calibration.py`; with `--long` ten times as many zones.
"""

from __future__ import annotations

import sys
from pathlib import Path
from random import Random

ROOT = Path(__file__).resolve().parents[2]
ZONES, MANY_ZONES = 20_000, 200_000


def main() -> None:
    """Print the tables."""
    sys.path.insert(0, str(ROOT))
    from tests.agronomy.simulated import reliability

    zones = MANY_ZONES if "--long" in sys.argv else ZONES
    for cores, sharp in ((8, True), (20, True), (40, True), (20, False)):
        print(f"{cores} cores, {'an exact line' if sharp else 'a line known by its printed interval'}, {zones} zones")
        print("   zones   said   true")
        worst = 0.0
        for held, said, true in reliability(Random(2027), zones, cores=cores, sharp=sharp):
            worst = max(worst, abs(said - true))
            print(f"{held:8}  {said:5.3f}  {true:5.3f}")
        print(f"farthest apart: {worst:.3f}\n", flush=True)


if __name__ == "__main__":
    main()
