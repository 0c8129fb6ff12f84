"""From what a command met to words and exit codes."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import NoReturn

import pytest

from soilrota import __version__
from soilrota.batch.faults import AnotherRunError, CannotStartError
from soilrota.cli import main
from soilrota.problems import Place, error
from tests.acceptance.small_book import command, edit, soilrota

PROBLEM = error("unknown-key", Place("practice.yaml", 2, 1), "nmae", "name", "rename it")


def _raises(fault: BaseException) -> Callable[[str, object], NoReturn]:
    """Return a command that meets a fault."""

    def run(_command: str, _chosen: object) -> NoReturn:
        raise fault

    return run


@pytest.mark.parametrize(
    ("fault", "code", "said"),
    [
        (CannotStartError("no practice", (PROBLEM,)), 2, "practice.yaml:2:1: error [unknown-key]"),
        (CannotStartError("no practice"), 2, "soilrota: no practice"),
        (AnotherRunError("another night: process 7"), 3, "another night: process 7"),
        (KeyboardInterrupt(), 130, "interrupted"),
        (ZeroDivisionError("division\nby zero"), 2, "ZeroDivisionError: division by zero"),
    ],
)
def test_faults_become_words_and_codes(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], fault: BaseException, code: int, said: str
) -> None:
    """Every way of ending has its code and its words on standard error, and no traceback."""
    monkeypatch.setattr("soilrota.cli.entry._run", _raises(fault))
    monkeypatch.delenv("SOILROTA_TRACEBACK", raising=False)
    assert main(["check", "book"]) == code
    out, err = capsys.readouterr()
    assert out == ""
    assert said in err
    assert "Traceback" not in err


def test_a_traceback_is_there_for_those_who_ask(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """With SOILROTA_TRACEBACK set, a fault of the program shows where it happened."""
    monkeypatch.setattr("soilrota.cli.entry._run", _raises(ZeroDivisionError("by zero")))
    monkeypatch.setenv("SOILROTA_TRACEBACK", "1")
    assert main(["check", "book"]) == 2
    assert "Traceback" in capsys.readouterr().err


def test_version_is_on_standard_output() -> None:
    """`soilrota --version` names the program and its version."""
    done = soilrota("--version")
    assert (done.returncode, done.stdout, done.stderr) == (0, f"soilrota {__version__}\n", "")


@pytest.mark.parametrize("words", [("check", "--json"), ("check",), ("new",)])
def test_a_reader_that_goes_away_is_no_fault(book: Path, words: tuple[str, ...]) -> None:
    """Output into a pipe that nobody reads ends the command quietly."""
    edit(book / "clients" / "cedar-farm" / "client.yaml", "area_ha: 9", "area_ha: nine")
    client = ["new-farm"] if words == ("new",) else []
    reader, writer = os.pipe()
    os.close(reader)
    done = subprocess.run(
        command(*words, book, *client), stdout=writer, stderr=subprocess.PIPE, text=True, check=False, timeout=60
    )
    os.close(writer)
    assert done.returncode == 1
    assert "Traceback" not in done.stderr
    assert "Exception ignored" not in done.stderr
