"""Inside a worker: it gets ready, does one order after the other, and lets no fault out but as a value."""

from __future__ import annotations

import ctypes
import importlib
import multiprocessing
import os
import pickle
import resource
import signal
import sys
import threading
import traceback
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

from soilrota.batch.faults import BatchError
from soilrota.batch.read_once import keep_in
from soilrota.batch.values import Cause, Failure

if TYPE_CHECKING:
    from soilrota.batch.workers import Asked

_MEGABYTE = 1 << 20
#: `prctl` option of Linux: the signal that a process gets when its parent ends (prctl(2)).
_PR_SET_PDEATHSIG = 1


def get_ready(memory_mb: int, read_before: Path | None = None) -> None:
    """Make this process one that dies with the night and takes no more memory than a client may.

    Args:
        memory_mb: memory on top of what a worker has before it begins [MB].
        read_before: the folder of what workers of the night have read; None where each reads for itself.
    """
    keep_in(read_before)
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    _die_with_parent()
    _limit_memory(memory_mb)


def perform(job: str, order: Asked) -> bytes:
    """Do one order, and return what the job answers, pickled; a pickled `Failure` where there is no answer.

    Args:
        job: `module:function`.
        order: what to do.
    """
    try:
        return pickle.dumps(_locate(job)(order))
    except MemoryError:
        return pickle.dumps(Failure(order.client, Cause.MEMORY, "took more memory than it may take"))
    except BatchError as fault:
        return pickle.dumps(Failure(order.client, Cause.FAULT, str(fault)))
    except BaseException as fault:  # noqa: BLE001 - whatever it is, it costs this client alone
        return pickle.dumps(Failure(order.client, Cause.FAULT, _words(fault), traceback.format_exc()))


def _locate(job: str) -> Callable[[Asked], Any]:
    """Return the function that a dotted name means."""
    module, _, function = job.partition(":")
    return cast("Callable[[Asked], Any]", getattr(importlib.import_module(module), function))


def _words(fault: BaseException) -> str:
    """Return a fault of the program on one line."""
    text = " ".join(traceback.format_exception_only(fault)[-1].split())
    return f"a fault of the program: {text}"


def _die_with_parent() -> None:
    """End this process when the night's process ends, however it ends.

    The kernel does it on Linux (the fork server ends with the night, and its children with it); a thread that waits
    for the night does it elsewhere, and covers a night that ended before this call.
    """
    if sys.platform == "linux":
        ctypes.CDLL(None, use_errno=True).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
    night = multiprocessing.parent_process()
    if night is None:
        return

    def follow() -> None:
        """Wait for the night's end."""
        night.join()
        os.kill(os.getpid(), signal.SIGKILL)

    threading.Thread(target=follow, name="follows the night", daemon=True).start()


def _limit_memory(memory_mb: int) -> None:
    """Bound the address space of this process, where the system can."""
    limit = _address_space() + memory_mb * _MEGABYTE
    _, hard = resource.getrlimit(resource.RLIMIT_AS)
    if hard != resource.RLIM_INFINITY:
        limit = min(limit, hard)
    resource.setrlimit(resource.RLIMIT_AS, (limit, hard))


def _address_space() -> int:
    """Return the address space that this process has now [byte]; 0 where the system does not say."""
    try:
        pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[0])
    except OSError:
        return 0
    return pages * resource.getpagesize()
