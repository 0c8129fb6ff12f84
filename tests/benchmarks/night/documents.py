"""The engine's writer beside the naive loop, document by document: processes that stay and write on demand."""

from __future__ import annotations

import multiprocessing
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from multiprocessing.connection import Connection
from pathlib import Path
from time import perf_counter, process_time
from typing import Any

from tests.benchmarks.night.bare import engine_writer, keep_from_collector, naive_writer
from tests.benchmarks.night.catching import Caught, read_caught
from tests.benchmarks.night.costs import Cost


@dataclass(frozen=True, slots=True)
class Writer:
    """A process that writes the caught documents, each on demand."""

    line: Connection

    def begin(self, number: int) -> None:
        """Have a document written."""
        self.line.send(number)

    def end(self) -> Cost:
        """Return what it cost, once it is written."""
        cost: Cost = self.line.recv()
        return cost

    def cost(self, number: int) -> Cost:
        """Have a document written, and return what it cost."""
        self.begin(number)
        return self.end()


@contextmanager
def writers(caught: Path, *kinds: str) -> Iterator[list[Writer]]:
    """Start a process of each kind that is ready to write; end them afterwards.

    Args:
        caught: the folder of what was caught.
        kinds: `engine` or `naive`; with ` fonttools` behind it, as on a machine without the HarfBuzz subset library.
    """
    context, found = multiprocessing.get_context("spawn"), []
    started: list[Any] = []
    for kind in kinds:
        line, other = context.Pipe()
        process = context.Process(target=_serve, args=(kind, caught, other), daemon=True)
        process.start()
        started.append(process)
        found.append(Writer(line))
    for writer in found:
        writer.cost(-1)
    try:
        yield found
    finally:
        for writer in found:
            writer.line.send(None)
        for process in started:
            process.join()


def together(two: Sequence[Writer], numbers: Sequence[int]) -> float:
    """Have documents written, each by whichever writer is free; return the time that it took [s]."""
    began, left, busy = perf_counter(), list(numbers), []
    for writer in two:
        if left:
            writer.begin(left.pop(0))
            busy.append(writer)
    while busy:
        for line in multiprocessing.connection.wait([writer.line for writer in busy]):
            writer = next(one for one in busy if one.line is line)
            writer.end()
            if left:
                writer.begin(left.pop(0))
            else:
                busy.remove(writer)
    return perf_counter() - began


def _serve(kind: str, caught: Path, line: Connection) -> None:
    """Write documents by their numbers until told to end; the first request only waits until all is ready."""
    documents = read_caught(caught)
    write = naive_writer() if "naive" in kind else engine_writer()
    if "fonttools" in kind:
        _without_harfbuzz_subset()
    write(documents[0])
    if "engine" in kind:
        keep_from_collector()
    number = line.recv()
    while number is not None:
        began, cpu = perf_counter(), process_time()
        if number >= 0:
            _check(write(documents[number]))
        line.send(Cost(perf_counter() - began, process_time() - cpu))
        number = line.recv()


def _without_harfbuzz_subset() -> None:
    """Let the library cut fonts with fontTools, as it does where it finds nothing faster."""
    from weasyprint.pdf import fonts

    fonts.harfbuzz_subset = None


def _check(content: bytes) -> None:
    """See that something was written."""
    if not content.startswith(b"%PDF-"):
        raise SystemExit("no PDF was written")


def some_of_each_kind(caught: Path, most: int) -> list[int]:
    """Return numbers of documents of every kind by their titles, in turn; the longest first."""
    documents: list[Caught] = read_caught(caught)
    kinds: dict[str, list[int]] = {}
    for number, one in enumerate(documents):
        kinds.setdefault(_kind(one), []).append(number)
    order = [number for place in range(len(documents)) for some in kinds.values() for number in some[place : place + 1]]
    return sorted(order[:most], key=lambda number: -len(documents[number].html))


def _kind(one: Caught) -> str:
    """Return what kind of document it is: its title up to the colon."""
    return one.html.partition("<title>")[2].partition(":")[0]
