"""One client's fault costs one client, whatever kind of fault it is."""

from __future__ import annotations

import os
import threading
import time
from datetime import date
from pathlib import Path

from soilrota.batch.values import Answer, Cause, Failure, Order
from soilrota.batch.workers import Limits, work_through
from tests.acceptance.small_book import write_book
from tests.batch.jobs import POISON, QUICK, RECOVERS, SLOW

DAY = date(2027, 2, 15)
FAULTS = {
    "exits": (Cause.CRASHED, "with code 7", 2),
    "is-killed": (Cause.CRASHED, "by signal 9", 2),
    "loops": (Cause.DEADLINE, "longer than the 2 s", 1),
    "is-hungry": (Cause.MEMORY, "more memory", 1),
    "is-unpicklable": (Cause.FAULT, "carries a function", 1),
    "answers-nonsense": (Cause.FAULT, "pickle", 1),
    "leaves": (Cause.FAULT, "SystemExit", 1),
}


def _orders(tmp_path: Path, clients: tuple[str, ...]) -> list[Order]:
    """Return an order a client of a new book."""
    book = write_book(tmp_path / "book", clients)
    return [Order(book, tmp_path / "out", client, DAY) for client in clients]


def _never() -> bool:
    """Never ask for the end."""
    return False


def test_every_kind_of_fault_costs_its_own_client_alone(tmp_path: Path) -> None:
    """Workers that exit, are killed, loop, starve, or raise what cannot travel: the others are answered."""
    orders = _orders(tmp_path, (*FAULTS, "alder-farm", "birch-farm", "cedar-farm", "dogwood-farm"))
    found = {answer.client: answer for answer in work_through(orders, POISON, Limits(2, 2.0, 512), _never)}
    assert {client for client, answer in found.items() if isinstance(answer, Answer)} == {
        "alder-farm",
        "birch-farm",
        "cedar-farm",
        "dogwood-farm",
    }
    for client, (cause, words, tries) in FAULTS.items():
        failure = found[client]
        assert isinstance(failure, Failure)
        assert (failure.cause, failure.tries) == (cause, tries)
        assert words in failure.words


def test_a_worker_that_dies_once_is_replaced_and_its_client_tried_again(tmp_path: Path) -> None:
    """Three clients that each lose a worker are all answered, by one worker at a time."""
    orders = _orders(tmp_path, ("alder-farm", "birch-farm", "cedar-farm"))
    answers = list(work_through(orders, RECOVERS, Limits(1, 30.0, 512), _never))
    assert all(isinstance(answer, Answer) for answer in answers)
    assert len(answers) == 3


def test_the_deadline_is_kept(tmp_path: Path) -> None:
    """A job that never ends is killed within three seconds of a deadline of two."""
    orders = _orders(tmp_path, ("loops",))
    list(work_through(_orders(tmp_path / "warm", ("alder-farm",)), QUICK, Limits(1, 30.0, 512), _never))
    began = time.monotonic()
    (failure,) = work_through(orders, POISON, Limits(1, 2.0, 512), _never)
    assert isinstance(failure, Failure)
    assert time.monotonic() - began < 2.0 + 3.0


def test_an_end_that_is_asked_for_comes_at_once(tmp_path: Path) -> None:
    """After the first answer asks for the end, nothing more is begun."""
    orders = _orders(tmp_path, tuple(f"farm-{number}" for number in range(12)))
    asked = threading.Event()
    work = work_through(orders, SLOW, Limits(1, 30.0, 512), asked.is_set)
    assert isinstance(next(work), Answer)
    asked.set()
    assert list(work) == []


def test_no_orders_no_workers(tmp_path: Path) -> None:
    """Nothing asked, nothing answered."""
    assert list(work_through([], QUICK, Limits(2, 1.0, 512), _never)) == []


def test_a_job_that_cannot_be_imported_fails_each_client(tmp_path: Path) -> None:
    """A wrong name of the job is a failure of each client, not a night that hangs."""
    orders = _orders(tmp_path, ("alder-farm",))
    (failure,) = work_through(orders, "tests.batch.jobs:nothing", Limits(1, 30.0, 512), _never)
    assert isinstance(failure, Failure)
    assert failure.cause is Cause.FAULT


def test_workers_that_cannot_get_ready_fail_their_clients_and_end(tmp_path: Path) -> None:
    """Where no worker ever lives long enough to begin, the night ends with failures rather than never."""
    orders = _orders(tmp_path, ("alder-farm", "birch-farm"))
    failures = list(work_through(orders, QUICK, Limits(1, 30.0, -(10**15)), _never))
    assert {failure.words for failure in failures if isinstance(failure, Failure)} == {
        "no worker could be kept alive for it"
    }
    assert len(failures) == 2


def test_a_client_that_takes_the_whole_pool_down_fails_alone(tmp_path: Path) -> None:
    """One that kills every worker in sight is tried alone, and the others are answered."""
    orders = _orders(tmp_path, ("alder-farm", "birch-farm", "kills-the-others", "cedar-farm", "dogwood-farm"))
    found = {answer.client: answer for answer in work_through(orders, POISON, Limits(2, 30.0, 512), _never)}
    failed = {client for client, answer in found.items() if isinstance(answer, Failure)}
    assert failed == {"kills-the-others"}
    assert len(found) == len(orders)


def test_no_worker_outlives_the_work(tmp_path: Path) -> None:
    """When the last answer is there, no worker is left that this process began, once the fork server has looked."""
    list(work_through(_orders(tmp_path, ("alder-farm", "birch-farm")), QUICK, Limits(2, 30.0, 512), _never))
    until = time.monotonic() + 10
    while _descendants(os.getpid()) and time.monotonic() < until:
        time.sleep(0.05)
    assert _descendants(os.getpid()) == []


def _descendants(pid: int) -> list[int]:
    """Return the children of the children of a process: the workers below the fork server."""
    grandchildren = []
    for child in _children(pid):
        grandchildren += _children(child)
    return grandchildren


def _children(pid: int) -> list[int]:
    """Return the children of a process."""
    try:
        return [int(word) for word in Path(f"/proc/{pid}/task/{pid}/children").read_text().split()]
    except OSError:
        return []
