"""What the fork server loads before it forks workers."""

from __future__ import annotations

import subprocess
import sys

WORDS = """
import gc
from soilrota.batch import warm, work
from soilrota.documents import pdf
assert pdf._resources.cache_info().currsize
assert work.warm_worker.cache_info().currsize
assert gc.get_freeze_count()
import threading
assert threading.active_count() == 1
print("warm")
"""


def test_workers_are_forked_from_a_warm_process_without_threads() -> None:
    """Fonts and styles are there, kept from the garbage collector; a thread would not survive the fork."""
    done = subprocess.run([sys.executable, "-c", WORDS], capture_output=True, text=True, timeout=120, check=False)
    assert (done.returncode, done.stdout.strip()) == (0, "warm"), done.stderr


def test_what_cannot_be_loaded_is_left_to_the_workers() -> None:
    """A fault here would end the fork server, and with it every worker of the night."""
    words = "import sys; sys.modules['ortools.sat.python.cp_model'] = None; import soilrota.batch.warm; print('alive')"
    done = subprocess.run([sys.executable, "-c", words], capture_output=True, text=True, timeout=120, check=False)
    assert (done.returncode, done.stdout.strip()) == (0, "alive"), done.stderr
