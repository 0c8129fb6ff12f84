"""`soilrota overnight`: request, words and exit code; the night itself is a stand-in here."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from soilrota.batch.values import Cause, Entry, NightReport, Outcome
from soilrota.cli import main
from soilrota.problems import Place, error

PROBLEM = error("unknown-key", Place("clients/b/client.yaml", 2, 1), "nmae", "name", "rename it")
MADE, KEPT = Entry("a", Outcome.MADE), Entry("k", Outcome.UNCHANGED)
WRONG = Entry("b", Outcome.PROBLEMS, problems=(PROBLEM,))
FAILED = Entry("c", Outcome.FAILED, "its worker ended", Cause.CRASHED, trace="the trace")


def _stand_in(monkeypatch: pytest.MonkeyPatch, *entries: Entry, **fields: Any) -> dict[str, Any]:
    """Let the night be a report that is given; return what was asked of it, once it is."""
    asked: dict[str, Any] = {}

    def run_night(request: object, today: object, _watcher: object) -> NightReport:
        asked.update(request=request, today=today)
        return NightReport(date(2027, 2, 15), "then", 1.5, entries, (), **fields)

    monkeypatch.setattr("soilrota.cli.overnight.run_night", run_night)
    return asked


@pytest.mark.parametrize(
    ("entries", "fields", "code"),
    [
        ((MADE, KEPT), {}, 0),
        ((MADE, WRONG), {}, 1),
        ((MADE, FAILED), {}, 1),
        ((MADE, Entry("n", Outcome.NOT_REACHED)), {"stopped_by": 15}, 143),
        ((MADE,), {"stopped_by": 2}, 130),
        ((MADE,), {"faults": ("season.csv could not be written",)}, 1),
    ],
)
def test_the_exit_code_tells_the_truth(
    monkeypatch: pytest.MonkeyPatch, entries: tuple[Entry, ...], fields: dict[str, Any], code: int
) -> None:
    """Made and unchanged are good; anything else is not, and a signal is told as shells do."""
    _stand_in(monkeypatch, *entries, **fields)
    assert main(["overnight", "book", "--out", "out"]) == code


def test_problems_come_client_by_client_and_the_sum_last(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Problems and reasons on standard error, the sum on standard output, traces for those who ask."""
    _stand_in(monkeypatch, MADE, WRONG, FAILED, faults=("run.json could not be written",))
    monkeypatch.delenv("SOILROTA_TRACEBACK", raising=False)
    main(["overnight", "book", "--out", "out"])
    out, err = capsys.readouterr()
    assert out == "as of 2027-02-15: 3 clients: 1 made, 1 problems, 1 failed; 1.5 s\n"
    assert err.splitlines() == [
        "",
        "b",
        f"  {PROBLEM}",
        "",
        "c: its worker ended",
        "soilrota: run.json could not be written",
    ]
    monkeypatch.setenv("SOILROTA_TRACEBACK", "1")
    main(["overnight", "book", "--out", "out"])
    assert "the trace" in capsys.readouterr().err


def test_what_is_asked_of_the_night(monkeypatch: pytest.MonkeyPatch) -> None:
    """Paths and clients are passed on; workers default to the cores, today to the zone's own date."""
    asked = _stand_in(monkeypatch, MADE)
    main(["overnight", "book", "--out", "out", "--only", "a"])
    request = asked["request"]
    assert (request.root, request.out, request.only, request.as_of) == (Path("book"), Path("out"), ("a",), None)
    assert request.jobs >= 1
    before = datetime.now(UTC).astimezone(ZoneInfo("Pacific/Auckland")).date()
    found = asked["today"]("Pacific/Auckland")
    assert before <= found <= datetime.now(UTC).astimezone(ZoneInfo("Pacific/Auckland")).date()
