"""One night at a time, and no lock that outlives its holder."""

from __future__ import annotations

import multiprocessing
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from soilrota.batch.faults import AnotherRunError, CannotStartError
from soilrota.batch.lock import night_lock

HOLD = """
import sys, time
from pathlib import Path
from soilrota.batch.lock import night_lock
with night_lock(Path(sys.argv[1]), "2027-02-15T20:00:00+00:00"):
    print("held", flush=True)
    time.sleep(60)
"""


def test_a_second_holder_is_told_of_the_first(tmp_path: Path) -> None:
    """The refusal names process, machine and start; it comes at once, and a kill of the first frees the lock."""
    path = tmp_path / "night.lock"
    with subprocess.Popen([sys.executable, "-c", HOLD, path], stdout=subprocess.PIPE) as holder:
        assert holder.stdout is not None
        assert holder.stdout.readline() == b"held\n"
        began = time.monotonic()
        with pytest.raises(AnotherRunError) as refusal, night_lock(path, "later"):
            pass
        assert time.monotonic() - began < 1
        for word in (f"process {holder.pid}", f"on {os.uname().nodename}", "since 2027-02-15T20:00:00+00:00"):
            assert word in str(refusal.value)
        holder.send_signal(signal.SIGKILL)
        holder.wait()
    with night_lock(path, "now"):
        assert f"process {os.getpid()}\n" in path.read_text(encoding="utf-8")


def test_a_file_left_behind_blocks_nobody(tmp_path: Path) -> None:
    """What stands in the file decides nothing."""
    path = tmp_path / "night.lock"
    path.write_text(f"process {os.getpid()}\non here\nsince yesterday\n", encoding="utf-8")
    with night_lock(path, "now"):
        pass


def test_a_process_begun_meanwhile_does_not_hold_it_on(tmp_path: Path) -> None:
    """A child process that outlives the body leaves the lock free."""
    path = tmp_path / "night.lock"
    with night_lock(path, "now"):
        child = multiprocessing.get_context("spawn").Process(target=time.sleep, args=(30,))
        child.start()
    try:
        with night_lock(path, "again"):
            pass
    finally:
        child.kill()
        child.join()


def test_a_place_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    """A missing folder is a reason not to begin."""
    with pytest.raises(CannotStartError, match="cannot be written"), night_lock(tmp_path / "no" / "night.lock", "now"):
        pass
