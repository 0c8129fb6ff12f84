"""How long each bad YAML file keeps the reader busy: every bomb must end within 50 ms.

Run it from the top of the checkout: `sh .ci/with python tests/benchmarks/bench_bombs.py`. It also prints each as a
ratio to an ordinary client file of the same run.
"""

from __future__ import annotations

import sys
from pathlib import Path
from time import perf_counter

ROOT = Path(__file__).resolve().parents[2]
ROUNDS = 5
LONGEST_MS = 50.0


def best_ms(text: str) -> float:
    """Return the shortest time [ms] of a few rounds of reading a text."""
    from soilrota.files.strict_yaml import parse_text

    times = []
    for _ in range(ROUNDS):
        start = perf_counter()
        parse_text(text, "client.yaml")
        times.append(perf_counter() - start)
    return min(times) * 1000


def bombs() -> dict[str, str]:
    """Return the bombs of the tests and those among the problem files, by name."""
    from tests.files.test_strict_yaml import BOMBS

    cases = ROOT / "tests" / "problem_files" / "cases"
    named = ("20-alias-bomb", "21-merge-bomb", "22-self-reference", "23-too-deep", "25-huge-integer")
    found = {name: (cases / name / "client.yaml").read_text(encoding="utf-8") for name in named}
    return {**found, **{name: text for name, text in BOMBS.items() if name != "many keys"}}


def main() -> int:
    """Print the figures; return 1 where a bomb took longer than it may."""
    sys.path.insert(0, str(ROOT))
    ordinary = best_ms((ROOT / "example_clients/clients/anvil-creek/client.yaml").read_text(encoding="utf-8"))
    print(f"an ordinary client file: {ordinary:.2f} ms")
    slowest = 0.0
    for name, text in bombs().items():
        took = best_ms(text)
        slowest = max(slowest, took)
        print(f"{name:20} {took:8.2f} ms, {took / ordinary:6.2f} times an ordinary file")
    print(f"slowest {slowest:.2f} ms of {LONGEST_MS:.0f} ms")
    return int(slowest > LONGEST_MS)


if __name__ == "__main__":
    sys.exit(main())
