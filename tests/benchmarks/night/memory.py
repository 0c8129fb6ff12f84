"""Memory of one worker over many documents: `python -m tests.benchmarks.night.memory BOOK DOCUMENTS`.

It is what a worker of the night does, order by order, in one process that is never replaced: files are read, and a
document is made and handed back. Printed are the memory that the process holds [MB], one figure a document.
"""

from __future__ import annotations

import json
import pickle
import resource
import sys
from pathlib import Path
from statistics import linear_regression, median

from soilrota.batch.inside import perform
from soilrota.batch.night import JOB
from soilrota.batch.values import Answer, Order
from tests.benchmarks.night.book import AS_OF
from tests.benchmarks.night.costs import print_cost

_MEGABYTE = 1 << 20


def resident_mb() -> float:
    """Return the memory that this process holds [MB]."""
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1])
    return pages * resource.getpagesize() / _MEGABYTE


def main() -> None:
    """Make the documents, and print what was held after each."""
    book, documents = Path(sys.argv[1]), int(sys.argv[2])
    import soilrota.batch.warm  # noqa: F401 - what workers are forked from

    clients = sorted(path.name for path in (book / "clients").iterdir())
    held: list[float] = []
    for number in range(documents):
        order = Order(book, book.parent / "nothing-here", clients[number % len(clients)], AS_OF)
        answer = pickle.loads(perform(JOB, order))  # noqa: S301 - our own
        if not isinstance(answer, Answer) or not any(one.content for one in answer.documents):
            raise SystemExit(f"nothing was made: {answer}")
        held.append(round(resident_mb(), 3))
    print(json.dumps(held))
    print_cost()


def growth(held: list[float], begun: int = 50) -> tuple[float, float]:
    """Return how memory grew after the first documents [MB a document]: by least squares, and from end to end.

    The second compares the median of the last tenth with that of the tenth after the first ones.
    """
    later = held[begun:]
    slope, _ = linear_regression(range(len(later)), later)
    tenth = max(len(later) // 10, 1)
    return slope, (median(later[-tenth:]) - median(later[:tenth])) / max(len(later) - tenth, 1)


if __name__ == "__main__":
    main()
