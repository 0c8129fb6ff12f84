"""Sending that is cut off: killed at any step of the talk with a real server.

Nothing is lost. The window in which a message can go twice reaches from its last byte to our record of the answer; even
there it goes twice only because a person says so, and is the same message.
"""

from __future__ import annotations

import os
import random
import signal
import subprocess
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from soilrota.batch.sending import OUTBOX
from soilrota.delivery.outbox import open_outbox
from soilrota.delivery.values import State
from tests.acceptance.small_book import command, untraced
from tests.batch.mail_book import mail_book, queue
from tests.delivery.certificates import Certificate, make_certificate
from tests.delivery.making import header
from tests.delivery.smtp_server import Answer, MailServer

#: Moments at which sending is killed; the full count runs once before an issue is closed.
KILLS = 100 if os.environ.get("SOILROTA_LONG") else 10
PEOPLE = tuple(f"p{number}" for number in range(12))
#: Steps of a talk in which all is sent: four to begin, five a message; at the very last, nothing is left to be killed.
STEPS = 4 + 5 * len(PEOPLE) - 1
#: Steps of the talk at which the server may have a message of which we have no record.
WINDOW = {"message", "accepted"}


@dataclass
class _Killer:
    """Kills a process at the n-th step of its talk with the server, before or after the answer to that step."""

    number: int
    before_answer: bool = True
    pid: int = 0
    step: str = ""
    _seen: int = field(default=0)

    def __call__(self, step: str, _argument: str) -> Answer | None:
        """Count a step; at the chosen one, stop the process, let the answer go out to it, and kill it."""
        self._seen += 1
        if self._seen != self.number or not self.pid:
            return None
        self.step = step
        if self.before_answer or step == "accepted":
            os.kill(self.pid, signal.SIGKILL)
            return Answer(hang_up="unanswered")
        os.kill(self.pid, signal.SIGSTOP)
        return Answer(hang_up="after")


@pytest.fixture(scope="module")
def certificate(tmp_path_factory: pytest.TempPathFactory) -> Certificate:
    """Return a certificate for this machine."""
    return make_certificate(tmp_path_factory.mktemp("certificate"))


@pytest.fixture(scope="module")
def tally() -> Iterator[Counter[str]]:
    """Return what the kills add up to; said at the end, which `pytest -s` shows."""
    found: Counter[str] = Counter()
    yield found
    print("\nkilled while sending:", ", ".join(f"{name} {number}" for name, number in sorted(found.items())))


def _send(book: Path, certificate: Certificate, *words: str, started: Callable[[int], None] = lambda _pid: None) -> int:
    """Send in a process of its own; one that was stopped is killed."""
    environment = {**untraced(), "SSL_CERT_FILE": str(certificate.certificate)}
    with subprocess.Popen(
        command("send", book, *words), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=environment
    ) as running:
        started(running.pid)
        _, status = os.waitpid(running.pid, os.WUNTRACED)
        if os.WIFSTOPPED(status):
            running.kill()
            return running.wait()
        running.returncode = os.waitstatus_to_exitcode(status)
        return running.returncode


def _states(book: Path) -> Counter[State]:
    """Return how many messages are in each state."""
    with open_outbox(book / OUTBOX, to_read=True) as outbox:
        return Counter(entry.state for entry in outbox.entries())


def _unsure(book: Path) -> list[tuple[str, str]]:
    """Return id and address of the messages that are unsure."""
    with open_outbox(book / OUTBOX, to_read=True) as outbox:
        return [(entry.id, entry.address) for entry in outbox.entries(State.UNSURE)]


@pytest.mark.parametrize("seed", range(KILLS))
def test_killed_at_any_step(tmp_path: Path, certificate: Certificate, tally: Counter[str], seed: int) -> None:
    """After kill -9 the next run sends the rest; one inside the window is listed, and sent again only when asked."""
    chance = random.Random(seed)
    killer = _Killer(chance.randint(1, STEPS), before_answer=chance.random() < 0.5)
    with MailServer(certificate.of_server(), script=killer) as server:
        book = mail_book(tmp_path / "book", server.port)
        queue(book, *PEOPLE)
        assert _send(book, certificate, started=lambda pid: setattr(killer, "pid", pid)) == -signal.SIGKILL
        killer.pid = 0
        code = _send(book, certificate)
        unsure = _unsure(book)
        got = Counter(one.to for one in server.accepted)
        assert max(got.values()) == 1
        assert {f"{one}@farms.example" for one in PEOPLE} <= {*got, *(address for _, address in unsure)}
        assert len(unsure) <= (killer.step in WINDOW)
        assert _states(book)[State.SENT] + len(unsure) == len(PEOPLE)
        assert code == (1 if unsure else 0)
        for entry_id, _ in unsure:
            assert _send(book, certificate, "--again", entry_id) == 0
        got = Counter(one.to for one in server.accepted)
        assert set(got) == {f"{one}@farms.example" for one in PEOPLE}
        twice = {address for address, count in got.items() if count > 1}
        assert twice <= {address for _, address in unsure}
        assert got.total() == len(PEOPLE) + len(twice)
        assert all(len(set(server.received_by(address))) == 1 for address in twice)
    tally.update(kills=1, messages=len(PEOPLE), lost=len(PEOPLE) - len(got), unsure=len(unsure), twice=len(twice))
    tally[f"at {killer.step}"] += 1


def test_killed_after_the_answer_and_before_our_record(tmp_path: Path, certificate: Certificate) -> None:
    """The one window in which nobody can know: unsure, not sent again, listed; forced, it is the same message."""

    def stop_at_the_third(step: str, _to: str) -> Answer | None:
        if step == "message" and len(server.accepted) == 2 and pids:
            os.kill(pids.pop(), signal.SIGSTOP)
            return Answer(hang_up="after")
        return None

    pids: list[int] = []
    with MailServer(certificate.of_server(), script=stop_at_the_third) as server:
        book = mail_book(tmp_path / "book", server.port)
        queue(book, *PEOPLE[:5])
        assert _send(book, certificate, started=pids.append) == -signal.SIGKILL
        assert len(server.accepted) == 3
        for _ in range(2):
            assert _send(book, certificate) == 1
            assert _states(book) == {State.SENT: 4, State.UNSURE: 1}
        assert max(Counter(one.to for one in server.accepted).values()) == 1
        ((entry_id, address),) = _unsure(book)
        assert server.accepted[2].to == address
        assert _send(book, certificate, "--again", entry_id) == 0
    first, second = server.received_by(address)
    assert first == second
    assert header(first.eml, "Message-ID")


def test_a_polite_end_finishes_the_message_at_hand(tmp_path: Path, certificate: Certificate) -> None:
    """SIGTERM: the exit code says so, nothing is unsure, the rest goes the next time."""

    def end_at_the_third(step: str, _to: str) -> Answer | None:
        if step == "data" and len(server.accepted) == 2 and pids:
            os.kill(pids.pop(), signal.SIGTERM)
            return Answer(wait_s=0.2)
        return None

    pids: list[int] = []
    with MailServer(certificate.of_server(), script=end_at_the_third) as server:
        book = mail_book(tmp_path / "book", server.port)
        queue(book, *PEOPLE[:5])
        with suppress(ProcessLookupError):
            assert _send(book, certificate, started=pids.append) == 128 + signal.SIGTERM
        assert _states(book) == {State.SENT: 3, State.WAITING: 2}
        assert _send(book, certificate) == 0
    assert sorted(one.to for one in server.accepted) == [f"{one}@farms.example" for one in PEOPLE[:5]]
