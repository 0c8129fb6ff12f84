"""`soilrota intake`: request, words and exit code; the intake itself is a stand-in here."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from soilrota.batch.intake_values import IntakeReport
from soilrota.batch.received import Received
from soilrota.cli import main
from soilrota.problems import Place, error

DAY = date(2027, 2, 15)
REASON = error("bag-unknown", Place("inbox/feb.csv", 3), "an unknown bag", "a bag", "read the label")
DONE = Received("ab" * 32, "feb.csv", DAY, rows=1, accepted=(2,))
WAITS = Received("cd" * 32, "mar.csv", DAY, rows=1, waiting={2: (REASON,)})
REFUSED = Received("ef" * 32, "odd.pdf", DAY, refused=(REASON,))


def _stand_in(
    monkeypatch: pytest.MonkeyPatch, report: IntakeReport, meanwhile: Callable[[], None] = lambda: None
) -> dict[str, Any]:
    """Let the intake be a report that is given; return what was asked of it, once it is."""
    asked: dict[str, Any] = {}

    def run_intake(request: object, *_: object) -> tuple[IntakeReport, str]:
        asked["request"] = request
        meanwhile()
        return report, "what there is to say\n"

    monkeypatch.setattr("soilrota.cli.intake.run_intake", run_intake)
    return asked


@pytest.mark.parametrize(
    ("report", "code"),
    [
        (IntakeReport(DAY), 0),
        (IntakeReport(DAY, records=(DONE,)), 0),
        (IntakeReport(DAY, records=(DONE, WAITS)), 1),
        (IntakeReport(DAY, records=(REFUSED,)), 1),
        (IntakeReport(DAY, records=(DONE,), faults=("feb.csv was not taken in",)), 1),
    ],
)
def test_the_exit_code_says_whether_anything_waits(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], report: IntakeReport, code: int
) -> None:
    """The report is printed in any case."""
    _stand_in(monkeypatch, report)
    assert main(["intake", "book", "--out", "out"]) == code
    assert capsys.readouterr().out == "what there is to say\n"


def test_what_is_asked_of_the_intake(monkeypatch: pytest.MonkeyPatch) -> None:
    """Paths, date and workers are passed on; workers default to the cores, the date to today's."""
    asked = _stand_in(monkeypatch, IntakeReport(DAY))
    main(["intake", "book", "--out", "out"])
    request = asked["request"]
    assert (request.root, request.out, request.as_of) == (Path("book"), Path("out"), None)
    assert request.jobs == len(os.sched_getaffinity(0))
    main(["intake", "book", "--out", "out", "--as-of", "2027-02-15", "--jobs", "3"])
    assert (asked["request"].as_of, asked["request"].jobs) == (DAY, 3)


def test_asked_to_end(monkeypatch: pytest.MonkeyPatch) -> None:
    """A signal is told as shells do."""
    _stand_in(monkeypatch, IntakeReport(DAY), lambda: os.kill(os.getpid(), signal.SIGTERM))
    assert main(["intake", "book", "--out", "out"]) == 128 + signal.SIGTERM
