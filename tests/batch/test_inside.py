"""What a worker does with a job: answers and faults alike leave it as bytes of plain values."""

from __future__ import annotations

import pickle
import resource
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.inside import perform
from soilrota.batch.values import Answer, Cause, Failure, Order
from tests.batch.jobs import POISON, QUICK

LIMITED = """
import resource
from soilrota.batch.inside import get_ready
get_ready(64)
soft, _ = resource.getrlimit(resource.RLIMIT_AS)
kept = bytearray(32 << 20)
try:
    bytearray(128 << 20)
except MemoryError:
    print("refused", soft > (64 << 20))
"""


def _order(book: Path, client: str) -> Order:
    """Return an order for a client."""
    return Order(book, book.parent / "out", client, date(2027, 2, 15))


def test_an_answer_is_handed_back(book: Path) -> None:
    """A job's answer comes back equal."""
    answer = pickle.loads(perform(QUICK, _order(book, "alder-farm")))  # noqa: S301 - as above
    assert isinstance(answer, Answer)
    assert answer.client == "alder-farm"


@pytest.mark.parametrize(
    ("client", "cause", "traced"),
    [("is-hungry", Cause.MEMORY, False), ("is-unpicklable", Cause.FAULT, True), ("leaves", Cause.FAULT, True)],
)
def test_a_fault_is_handed_back_as_a_failure(book: Path, client: str, cause: Cause, *, traced: bool) -> None:
    """Whatever a job raises becomes a failure; the trace is kept apart from the words."""
    failure = pickle.loads(perform(POISON, _order(book, client)))  # noqa: S301 - as above
    assert isinstance(failure, Failure)
    assert (failure.client, failure.cause, bool(failure.trace)) == (client, cause, traced)
    assert "Traceback" not in failure.words
    assert "\n" not in failure.words


def test_memory_is_limited_on_top_of_what_a_worker_has() -> None:
    """A worker gets its megabytes and no more, and the limit leaves this process alone."""
    before = resource.getrlimit(resource.RLIMIT_AS)
    done = subprocess.run([sys.executable, "-c", LIMITED], capture_output=True, text=True, check=True)
    assert done.stdout == "refused True\n"
    assert resource.getrlimit(resource.RLIMIT_AS) == before
