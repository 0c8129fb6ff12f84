"""What a process cost, its own processor time and that of all that it started; and runs of processes that say so."""

from __future__ import annotations

import json
import multiprocessing.forkserver
import os
import resource
import subprocess
import sys
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from time import perf_counter

_FIRST_TIME = 13  # user time in /proc/PID/stat, counted from the first field (proc(5)); three more follow it


@dataclass(frozen=True, slots=True)
class Cost:
    """What a run cost: from start to end [s], processor time of all its processes [s]; and what it printed."""

    wall_s: float
    cpu_s: float
    said: tuple[str, ...] = ()


def print_cost() -> None:
    """Print what this process cost so far, on the last line of its output."""
    uses = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    print(json.dumps({"cpu_s": sum(use.ru_utime + use.ru_stime for use in uses) + _of_fork_server()}))


def _of_fork_server() -> float:
    """Return the processor time of the fork server, for which nobody waits, and of the workers that ended [s]."""
    server = multiprocessing.forkserver._forkserver._forkserver_pid  # type: ignore[attr-defined]
    if server is None:
        return 0.0
    after_name = Path(f"/proc/{server}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    ticks = sum(map(int, after_name[_FIRST_TIME - 2 : _FIRST_TIME + 2]))
    return ticks / os.sysconf("SC_CLK_TCK")


def command_s(*words: str | Path | int | date) -> float:
    """Run a command of the engine in a process of its own, and return the time from its start to its end [s]."""
    began = perf_counter()
    command = [Path(sys.executable).with_name("soilrota"), *map(str, words)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    took_s = perf_counter() - began
    if done.returncode:
        raise SystemExit(f"{words[0]} failed:\n{done.stdout}{done.stderr}")
    return took_s


def run(module: str, *words: str | Path | int | date, caught: Path | None = None) -> Cost:
    """Run a module of the benchmark in a process of its own, and return what it cost."""
    environment = {**os.environ, **({"BENCH_CAUGHT": str(caught)} if caught else {})}
    began = perf_counter()
    done = subprocess.run(
        [sys.executable, "-m", f"tests.benchmarks.night.{module}", *map(str, words)],
        capture_output=True,
        text=True,
        env=environment,
        check=False,
    )
    wall_s = perf_counter() - began
    if done.returncode:
        raise SystemExit(f"{module} failed:\n{done.stdout}{done.stderr}")
    said = done.stdout.splitlines()
    return Cost(wall_s, json.loads(said[-1])["cpu_s"], tuple(said[:-1]))
