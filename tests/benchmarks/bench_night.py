"""How a night compares with the PDF writer by itself: wall time, speed of a document, a night without changes, memory.

Prints ratios, all measured in one run on generated clients; runs that are compared take turns, and each ratio is the
median of its rounds, with their range. Nothing here is a promise in seconds.

1. *The night and the bare writer.* Two processes, each timed from its start to its end. One runs a night over a book
   that is new to it: start-up, reading and checking files, windows, visits, calendar, every document, results as a
   workbook and a table, feeds, messages, ledger, flushed files. The other writes the very HTML of that night's PDFs
   with as many workers and the same shared styles, fonts and collector settings: loading the HTML from one file and
   the library, styles and fonts before its workers are forked, `HTML(string=…)`, rendering, plain writing; nobody
   watches over it. Both make the same bytes, which is checked. Every eighth client also gets field packs, labels and a
   farm report.
   Processor time of all processes is told beside it, because other work on the machine moves it less. A night costs
   some seconds before and between its documents, however many these are: `--long` shows what is left of them.
2. *One worker and the naive loop.* A document of each kind in turn, written by a process that reads it, shares styles
   and fonts and tunes the collector as the engine's workers do, with the HarfBuzz subset library of the set-up; and by
   one that shares and tunes nothing and cuts fonts with fontTools, as a plain installation of the PDF writer does. Both
   have warmed up on one document and use the engine's fonts. Beside it, the same where both cut fonts alike, by either.
3. *Two workers and the naive loop.* The same documents by two such workers at once, against the naive loop's sum.
4. *A night in which nothing changed and a full one.* The command in a process of its own, start to end: a full night
   over many clients once (every fourth gets papers), then nights with the same as-of date again. Beside it, nights on
   the days after the season, each with the next day's date; some have somebody to remind of something.
5. *Memory of one worker* over many documents, files read and all, in one process that is never replaced.

Run it from the top of the checkout: `sh .ci/with python tests/benchmarks/bench_night.py`; about twenty minutes on two
quiet cores. `--short` shows in a minute that it runs; `--long` has more clients and rounds; `--only 1 4` leaves the
others out. Modules are compiled once, as an installation has them, whatever the environment says.
"""

from __future__ import annotations

import argparse
import json
import os
import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, timedelta
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory

ROOT = Path(__file__).resolve().parents[2]
WORKERS = 2
#: After the season of the generated book.
AFTER = date(2027, 4, 20)


@dataclass(frozen=True, slots=True)
class Form:
    """How much is measured.

    Attributes:
        rounds: rounds of what takes turns [-].
        clients: clients of the nights that are compared with the bare writer [-].
        papers: of every so many of them one gets field packs, labels and a report [-].
        sample: documents of a round of one worker and two [-].
        many: clients of the night without changes [-].
        quiet: nights without changes, of each kind [-].
        documents: documents over which memory is watched [-].
    """

    rounds: int
    clients: int
    papers: int
    sample: int
    many: int
    quiet: int
    documents: int


FORMS = {
    "short": Form(rounds=1, clients=2, papers=2, sample=3, many=3, quiet=2, documents=8),
    "default": Form(rounds=5, clients=96, papers=8, sample=6, many=200, quiet=15, documents=500),
    "long": Form(rounds=9, clients=160, papers=8, sample=20, many=1000, quiet=40, documents=1500),
}


class Bench:
    """The measurements, in a folder of their own."""

    def __init__(self, form: Form, folder: Path) -> None:
        """Take how much is measured, and where files are written."""
        self._form = form
        self._folder = folder
        self._caught = folder / "caught"

    def run(self, only: set[int]) -> None:
        """Measure what is asked, and print it."""
        from soilrota.documents.digests import engine_parts

        parts = dict(engine_parts())
        print(
            f"{len(os.sched_getaffinity(0))} cores; weasyprint {parts['weasyprint']}, fonts cut by {parts['subsetter']}"
        )
        if only & {1, 2, 3}:
            self._catch()
        for number, measure in ((1, self._night), (2, self._writers), (4, self._quiet), (5, self._memory)):
            if number in only or (number == 2 and 3 in only):
                measure()

    def _catch(self) -> None:
        """Write the book, and catch what a night hands to the PDF writer."""
        from tests.benchmarks.night.book import AS_OF, write_book
        from tests.benchmarks.night.costs import run

        self._caught.mkdir()
        book = write_book(self._folder / "template", self._form.clients, visited=self._form.papers)
        with self._copied(book) as (copy, out):
            run("one_night", copy, out, AS_OF, WORKERS, caught=self._caught)

    def _night(self) -> None:
        """Measure the night beside the bare writer."""
        from tests.benchmarks.night.book import AS_OF
        from tests.benchmarks.night.catching import read_caught
        from tests.benchmarks.night.costs import run
        from tests.benchmarks.night.told import heading, tell

        number = len(read_caught(self._caught))
        heading(f"1. night / bare writer, {self._form.clients} clients, {number} PDFs, {WORKERS} workers each")
        walls, processors = [], []
        for turn in range(self._form.rounds):
            costs = {}
            for kind in ("night", "bare") if turn % 2 else ("bare", "night"):
                with self._copied(self._folder / "template") as (copy, out):
                    words = ("one_night", copy, out, AS_OF) if kind == "night" else ("bare", self._caught, out)
                    out.mkdir()
                    costs[kind] = (run(*words, WORKERS), _pdfs(out))
            (night, ours), (bare, theirs) = costs["night"], costs["bare"]
            if ours != theirs:
                raise SystemExit("the night and the bare writer made different files")
            walls.append(night.wall_s / bare.wall_s)
            processors.append(night.cpu_s / bare.cpu_s)
            print(f"  round {turn + 1}: {night.wall_s:.1f} s / {bare.wall_s:.1f} s", flush=True)
        tell("wall time", walls, "goal at most 1.10, aim 1.03")
        tell("processor time of all processes", processors)

    def _writers(self) -> None:
        """Measure one worker and two beside the naive loop."""
        from tests.benchmarks.night.documents import some_of_each_kind, together, writers
        from tests.benchmarks.night.told import heading, tell

        numbers = some_of_each_kind(self._caught, self._form.sample)
        heading(f"2. and 3. naive loop / workers, {len(numbers)} documents a round")
        singles: list[float] = []
        doubles: list[float] = []
        alike: dict[str, list[float]] = {"HarfBuzz": [], "fontTools": []}
        kinds = ("engine", "engine", "naive", "engine fonttools", "naive fonttools")
        with writers(self._caught, *kinds) as (one, other, naive, slow, plain):
            for _ in range(self._form.rounds):
                pairs = [(one.cost(number).wall_s, plain.cost(number).wall_s) for number in numbers]
                doubles.append(sum(theirs for _, theirs in pairs) / together([one, other], numbers))
                singles += [theirs / ours for ours, theirs in pairs]
                for number, (ours, theirs) in list(zip(numbers, pairs, strict=True))[::3]:
                    alike["HarfBuzz"].append(naive.cost(number).wall_s / ours)
                    alike["fontTools"].append(theirs / slow.cost(number).wall_s)
        tell("one worker, times faster a document", singles, "goal at least 1.4, aim 1.8")
        for library, ratios in alike.items():
            tell(f"the same where both cut fonts with {library}", ratios)
        tell("two workers, times faster", doubles, "goal at least 2.5, aim 3.5")

    def _quiet(self) -> None:
        """Measure nights without changes beside a full one."""
        from tests.benchmarks.night.book import AS_OF, write_book
        from tests.benchmarks.night.costs import command_s
        from tests.benchmarks.night.told import heading, tell

        many = self._form.many
        heading(f"4. full night / night without changes, {many} clients")
        book, out = write_book(self._folder / "many", many, visited=4), self._folder / "many-out"

        def night_s(day: date) -> float:
            return command_s("overnight", book, "--out", out, "--as-of", day, "--jobs", WORKERS)

        full_s = night_s(AS_OF)
        print(f"  full night: {full_s:.1f} s, {len(list(out.rglob('*.pdf')))} PDFs", flush=True)
        same = [night_s(AS_OF) for _ in range(self._form.quiet)]
        tell("the same as-of date again, times faster", [full_s / one for one in same], "goal at least 1000, aim 4000")
        told = "  the next nights on that date: " + ", ".join(f"{one:.3f} s" for one in same)
        print(told, flush=True)
        days = [AFTER + timedelta(days=night) for night in range(8)]
        later = ", ".join(f"{day:%d %b} {night_s(day):.2f} s" for day in days)
        print(f"  after the season, each time the next day's date: {later}", flush=True)

    def _memory(self) -> None:
        """Measure the memory of a worker."""
        from tests.benchmarks.night.book import write_book
        from tests.benchmarks.night.costs import run
        from tests.benchmarks.night.memory import growth
        from tests.benchmarks.night.told import heading

        documents = self._form.documents
        heading(f"5. memory of one worker over {documents} documents")
        book = write_book(self._folder / "small", 8, small=True)
        held: list[float] = json.loads(run("memory", book, documents).said[-1])
        shown = [number for number in (1, 10, 50, 100, 200, 300, 400, 500, 1000, 1500) if number <= documents]
        print("  MB after documents: " + ", ".join(f"{number}: {held[number - 1]:.1f}" for number in shown))
        begun = min(50, documents // 2)
        slope, ends = growth(held, begun)
        words = f"after document {begun}: {slope:+.4f} MB a document by least squares, {ends:+.4f} from end to end"
        print(f"  {words}; goal at most 0.05")

    @contextmanager
    def _copied(self, book: Path) -> Iterator[tuple[Path, Path]]:
        """Yield a copy of a book and a place for its output; remove both afterwards."""
        copy, out = self._folder / "book", self._folder / "out"
        shutil.copytree(book, copy)
        try:
            yield copy, out
        finally:
            shutil.rmtree(copy)
            shutil.rmtree(out, ignore_errors=True)


def _pdfs(folder: Path) -> list[str]:
    """Return the digests of all PDFs of a folder, sorted."""
    return sorted(sha256(path.read_bytes()).hexdigest() for path in folder.rglob("*.pdf"))


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description="Compares a night with the PDF writer by itself.")
    kind = parser.add_mutually_exclusive_group()
    kind.add_argument("--short", action="store_const", const="short", dest="form")
    kind.add_argument("--long", action="store_const", const="long", dest="form")
    parser.add_argument("--only", type=int, nargs="+", default=[1, 2, 3, 4, 5], choices=(1, 2, 3, 4, 5))
    chosen = parser.parse_args()
    with TemporaryDirectory(prefix="bench-night-") as folder:
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
        os.environ["PYTHONPYCACHEPREFIX"] = f"{folder}/compiled"
        Bench(FORMS[chosen.form or "default"], Path(folder)).run(set(chosen.only))


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    main()
