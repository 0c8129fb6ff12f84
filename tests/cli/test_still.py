"""What a night says that had nothing to do."""

from __future__ import annotations

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


@pytest.mark.parametrize("more", [{"log": Path("log.jsonl")}, {"only": ["ash"]}])
def test_some_nights_are_whole(asked: list[date], more: dict[str, object]) -> None:
    """A log tells of every client, and single clients are not what was looked at."""
    assert module.still(_chosen(**more)) is None
    assert asked == []


def test_any_other_night_is_left_to_others(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing is said."""
    monkeypatch.setattr(module, "still_night", lambda *_words: None)
    assert module.still(_chosen()) is None
    assert capsys.readouterr() == ("", "")
