"""Workers that can be killed one by one: each order has a deadline and a memory limit, and costs only itself.

`pebble` supervises the workers. They are started from a fork server, so none inherits the parent's lock or threads;
they die with the parent; and they hand back bytes, so that nothing a fault leaves behind has to travel.
"""

from __future__ import annotations

import multiprocessing
import pickle
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, CancelledError, Future, wait
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, Protocol

from pebble import ProcessExpired, ProcessPool

from soilrota.batch.inside import get_ready, perform
from soilrota.batch.values import Cause, Failure

_TRIES = 2
#: What the fork server loads for workers that make documents.
_WARM = "soilrota.batch.warm"
#: Loading all of it takes some seconds on one core: fewer orders are done sooner by workers that load what they need.
_WORTH_WARMING = 8
#: Orders after which a worker is replaced by a fresh one, as insurance against memory that is never given back.
_ORDERS_A_WORKER = 200
_LOOK_AROUND_S = 0.2
#: Time beyond every deadline after which the pool itself is taken to be stuck [s].
_STUCK_S = 30.0


@dataclass(frozen=True, slots=True)
class Limits:
    """What a night grants its workers.

    Attributes:
        jobs: workers at once [-].
        deadline_s: time for one client [s].
        memory_mb: memory for one client [MB].
        warm: whether what makes documents is loaded once for all workers, before the first of a process is started;
            worth it where documents will be made, even if not by these workers. Few orders are not waited for.
    """

    jobs: int
    deadline_s: float
    memory_mb: int
    warm: bool = False


class Asked(Protocol):
    """An order: what a job is asked, under a name of its own (a client's id, or a file's)."""

    @property
    def client(self) -> str:
        """Return the name."""


class _Round:
    """One pool and the orders given to it; a pool that breaks ends its round, and what is left goes to the next."""

    def __init__(
        self, pool: ProcessPool, job: str, limits: Limits, waiting: dict[str, Asked], tries: dict[str, int]
    ) -> None:
        self._pool = pool
        self._job = job
        self._limits = limits
        self._waiting = waiting
        self._tries = tries
        self._futures: dict[Future[bytes], str] = {}

    def run(self, stop: Callable[[], bool]) -> Iterator[Any]:
        """Yield answers as they come, until all are there, `stop` says so, or the pool is broken or stuck."""
        try:
            for client in self._waiting:
                self._give(client)
            yield from self._answers(stop)
        except (BrokenProcessPool, CancelledError):
            return

    def _answers(self, stop: Callable[[], bool]) -> Iterator[Any]:
        """Yield answers as they come; a pool that ended by itself, or is silent for too long, is left."""
        quiet_s = 0.0
        while self._futures and not stop() and quiet_s < self._limits.deadline_s + _STUCK_S:
            done = wait(self._futures, timeout=_LOOK_AROUND_S, return_when=FIRST_COMPLETED).done
            if not done and not self._pool.active:
                return
            quiet_s = 0.0 if done else quiet_s + _LOOK_AROUND_S
            for future in done:
                client = self._futures.pop(future)
                answer = self._answer(future, client)
                if answer is not None:
                    del self._waiting[client]
                    yield answer
                if stop():
                    return

    def _give(self, client: str) -> None:
        """Give an order to the pool.

        Raises:
            BrokenProcessPool: the pool takes no more.
        """
        order, deadline_s = self._waiting[client], self._limits.deadline_s
        try:
            future = self._pool.schedule(perform, args=(self._job, order), timeout=deadline_s)
        except RuntimeError as fault:
            raise BrokenProcessPool(str(fault)) from fault
        self._futures[future] = client

    def _answer(self, future: Future[bytes], client: str) -> Any:
        """Return what became of an order; None where a fresh worker tries it again."""
        try:
            answer = pickle.loads(future.result())  # noqa: S301 - from our own worker
        except TimeoutError:
            words = f"took longer than the {self._limits.deadline_s:g} s that it may take"
            return Failure(client, Cause.DEADLINE, words, tries=self._tries[client])
        except ProcessExpired as fault:
            if self._tries[client] < _TRIES:
                self._tries[client] += 1
                self._give(client)
                return None
            words = f"its worker ended {_how(fault.exitcode)}, {_TRIES} times"
            return Failure(client, Cause.CRASHED, words, tries=self._tries[client])
        return answer


def work_through(orders: Iterable[Asked], job: str, limits: Limits, stop: Callable[[], bool]) -> Iterator[Any]:
    """Give every order to a worker and yield what becomes of it, in the order in which they are done.

    A worker that dies is replaced, and its order tried once more. An order that takes longer than the deadline is
    killed with its worker and not tried again. Where the whole pool ends by itself, the orders that were first in it
    are tried alone, one by one, so that whichever is to blame fails alone. After `stop` says so, nothing more is
    begun, and workers still at work are killed.

    Args:
        orders: no two under one name.
        job: `module:function` that answers an order; workers import it. What it answers, or a `Failure`, is yielded.
        limits: workers, time and memory.
        stop: asked a few times a second.
    """
    waiting = {order.client: order for order in orders}
    suspects: list[str] = []
    while waiting and not stop():
        alone = suspects.pop() if suspects else None
        given = dict(waiting) if alone is None else {alone: waiting[alone]}
        tries = dict.fromkeys(given, 1 if alone is None else _TRIES)
        yield from _one_round(given, job, limits, tries, stop)
        broken = bool(given) and not stop()
        if broken and alone is None:
            suspects = [client for client in waiting if client in given][: limits.jobs]
        elif broken and alone is not None:
            yield Failure(alone, Cause.CRASHED, "no worker could be kept alive for it", tries=_TRIES)
            del given[alone]
        answered = waiting.keys() - given.keys() if alone is None else {alone}
        waiting = {client: order for client, order in waiting.items() if client not in answered}


def _one_round(
    given: dict[str, Asked], job: str, limits: Limits, tries: dict[str, int], stop: Callable[[], bool]
) -> Iterator[Any]:
    """Yield answers of one pool; orders that it answered leave `given`."""
    pool = _pool(job, limits, len(given))
    try:
        yield from _Round(pool, job, limits, given, tries).run(stop)
    finally:
        pool.stop()  # type: ignore[no-untyped-call]
        pool.join()


def _pool(job: str, limits: Limits, orders: int) -> ProcessPool:
    """Return a pool that is no wider than there are orders."""
    context = multiprocessing.get_context("forkserver")
    # Heeded by the first pool of a process alone: the fork server stays until the process ends.
    loaded = ["soilrota.batch.inside", "pebble", job.partition(":")[0]]
    is_worth_it = limits.warm and orders >= _WORTH_WARMING
    context.set_forkserver_preload([*loaded, *([_WARM] if is_worth_it else [])])
    return ProcessPool(
        max_workers=max(1, min(limits.jobs, orders)),
        max_tasks=_ORDERS_A_WORKER,
        initializer=get_ready,
        initargs=(limits.memory_mb, Path(_read_before().name)),
        context=context,
    )


@cache
def _read_before() -> TemporaryDirectory[str]:
    """Return the folder of what workers have read; it is there for every pool of this process, and goes with it."""
    return TemporaryDirectory(prefix="soilrota-")


def _how(exit_code: int) -> str:
    """Return in words how a process ended."""
    return f"by signal {-exit_code}" if exit_code < 0 else f"with code {exit_code}"
