"""What a night says that had nothing to do."""

from __future__ import annotations

import json
from argparse import Namespace
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

import soilrota.cli.still as module
from soilrota.batch.still import Still
from soilrota.cli.exit_codes import ExitCode

DAY = date(2027, 2, 16)
SAID = Still(
    DAY, 0.04, "ash: unchanged\n", "  ash/client.yaml:1:1: warning\n", "as of {day}: 1 client: 1 unchanged; {took} s"
)


def _chosen(**more: object) -> Namespace:
    """Return what was asked on the command line."""
    return Namespace(**{"book": Path("book"), "out": Path("out"), "as_of": DAY, "only": [], "log": None, **more})


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[date]:
    """Let every night be one that has nothing to do; return the days that were asked for."""
    days: list[date] = []

    def still_night(root: Path, out: Path, started: str, today: Callable[[str], date]) -> Still:
        assert (root, out, started[:2]) == (Path("book"), Path("out"), "20")
        days.append(today("Australia/Melbourne"))
        return SAID

    monkeypatch.setattr(module, "still_night", still_night)
    return days


def test_it_says_what_the_night_before_said(asked: list[date], capsys: pytest.CaptureFixture[str]) -> None:
    """Clients and problems on standard error, the sum with its own date and time on standard output."""
    assert module.still(_chosen()) == ExitCode.GOOD
    said = capsys.readouterr()
    assert said.err == "ash: unchanged\n  ash/client.yaml:1:1: warning\n"
    assert said.out == "as of 2027-02-16: 1 client: 1 unchanged; 0.0 s\n"
    assert asked == [DAY]


def test_a_terminal_is_told_no_client(
    asked: list[date], capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """It would have shown a bar, which is gone at the end."""
    monkeypatch.setattr("sys.stderr.isatty", lambda: True)
    assert module.still(_chosen(as_of=None)) == ExitCode.GOOD
    assert "unchanged" not in capsys.readouterr().err
    assert len(asked) == 1


def test_the_log_gets_what_any_night_adds(asked: list[date], tmp_path: Path) -> None:
    """A line a client between begin and end."""
    log = tmp_path / "log.jsonl"
    assert module.still(_chosen(log=log)) == ExitCode.GOOD
    begin, client, end = [json.loads(line) for line in log.read_text().splitlines()]
    assert (begin["event"], begin["clients"]) == ("begin", 1)
    assert (client["client"], client["outcome"], client["errors"], client["took_s"]) == ("ash", "unchanged", 0, 0.0)
    assert (end["event"], end["as_of"], end["exit_code"]) == ("end", "2027-02-16", 0)
    assert end["sum"] == "as of 2027-02-16: 1 client: 1 unchanged; 0.0 s"
    assert asked == [DAY]


def test_single_clients_are_looked_at(asked: list[date]) -> None:
    """They are not what was seen."""
    assert module.still(_chosen(only=["ash"])) is None
    assert asked == []


def test_any_other_night_is_left_to_others(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing is said."""
    monkeypatch.setattr(module, "still_night", lambda *_words: None)
    assert module.still(_chosen()) is None
    assert capsys.readouterr() == ("", "")
