"""How a night is told while it runs, and how it hears of signals."""

from __future__ import annotations

import io
import os
import signal
import sys

import pytest

from soilrota.batch.values import Entry, Outcome
from soilrota.cli.progress import Teller


def test_a_line_a_client_where_nobody_watches(capsys: pytest.CaptureFixture[str]) -> None:
    """Without a terminal every client has its line on standard error."""
    with Teller() as teller:
        teller.begin(3)
        teller.done(Entry("alder-farm", Outcome.MADE, took_s=1.26))
        teller.done(Entry("birch-farm", Outcome.UNCHANGED))
        teller.done(Entry("cedar-farm", Outcome.FAILED, "its worker ended by signal 9"))
    out, err = capsys.readouterr()
    assert out == ""
    assert err.splitlines() == [
        "alder-farm: made (1.3 s)",
        "birch-farm: unchanged",
        "cedar-farm: failed, its worker ended by signal 9",
    ]


class _Terminal(io.StringIO):
    """A stream that takes itself for a terminal."""

    def isatty(self) -> bool:
        """Say yes."""
        return True


def test_a_bar_on_a_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """A terminal gets one bar that counts clients, and no colour codes."""
    terminal = _Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    with Teller() as teller:
        teller.begin(2)
        teller.done(Entry("alder-farm", Outcome.MADE))
        teller.done(Entry("birch-farm", Outcome.MADE))
    text = terminal.getvalue()
    assert "2/2" in text or "0/2" in text
    assert "\x1b[3" not in text
    assert "alder-farm: made" not in text


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_the_first_signal_asks_for_the_end(number: signal.Signals) -> None:
    """It is noted, a second would be obeyed at once, and afterwards the signals are as they were."""
    before = signal.getsignal(number)
    with Teller() as teller:
        assert teller.asked_to_end() is None
        os.kill(os.getpid(), number)
        assert teller.asked_to_end() == number
        assert signal.getsignal(number) is signal.SIG_DFL
    assert signal.getsignal(number) is before
