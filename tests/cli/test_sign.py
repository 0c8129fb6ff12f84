"""`soilrota sign` on the command line."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from soilrota.batch.lock import night_lock
from soilrota.cli import main
from tests.acceptance.signed_book import CLIENT, DAY, make_signable, signatures_file
from tests.acceptance.small_book import edit


class _Terminal(io.StringIO):
    """A terminal at which somebody has typed something."""

    def isatty(self) -> bool:
        """Return that it is one."""
        return True


@pytest.fixture
def signable(book: Path) -> Path:
    """Return a book of which one client can be signed for."""
    return make_signable(book)


@pytest.fixture(autouse=True)
def no_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let nobody sit at a terminal."""
    monkeypatch.setattr("sys.stdin", io.StringIO())


def _sign(book: Path, *words: str) -> int:
    """Run the command, and return its exit code."""
    return main(["sign", str(book), CLIENT, "--as-of", DAY, *words])


def test_signed_without_a_question(signable: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 0; what is signed and that it is no proof of identity on standard output; again changes nothing."""
    assert _sign(signable, "--as", "ann-lee") == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert "2 results of 1 zone from 1 report, last sampled on 4 February 2027" in out
    assert "Now signed by Ann Lee (Agronomist) on 15 March 2027, digest " in out
    assert "no proof of identity" in out
    before = signatures_file(signable).read_bytes()
    assert _sign(signable) == 0
    assert "Nothing was written: this is signed already" in capsys.readouterr().out
    assert signatures_file(signable).read_bytes() == before


@pytest.mark.parametrize(("typed", "code"), [("yes\n", 0), ("Y\n", 0), ("no\n", 2), ("\n", 2), ("", 2)])
def test_at_a_terminal_somebody_is_asked(
    signable: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, typed: str, code: int
) -> None:
    """Only a yes signs; the question goes to standard error."""
    monkeypatch.setattr("sys.stdin", _Terminal(typed))
    assert _sign(signable) == code
    assert "Sign this as Ann Lee?" in capsys.readouterr().err
    assert signatures_file(signable).exists() == (code == 0)


def test_at_a_terminal_nobody_is_asked_who_said_yes(
    signable: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """With --yes."""
    monkeypatch.setattr("sys.stdin", _Terminal("no\n"))
    assert _sign(signable, "--yes") == 0
    assert capsys.readouterr().err == ""


def test_refused_with_the_way_to_mend_it(signable: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 2; place, code and mend on standard error."""
    assert _sign(signable, "--as", "ned-marlow") == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "clients/alder-farm/client.yaml: error [not-the-adviser] ned-marlow is not the adviser" in err
    assert "To mend: have ann-lee sign" in err
    edit(signable / "practice.yaml", ", qualification: Agronomist", "")
    assert _sign(signable) == 2
    assert "error [no-qualification] Ann Lee has no qualification" in capsys.readouterr().err


def test_a_client_with_errors_is_not_signed(signable: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 2, the errors on standard error."""
    edit(signable / "clients" / CLIENT / "client.yaml", "area_ha: 9", "area_ha: nine")
    assert _sign(signable) == 2
    err = capsys.readouterr().err
    assert "clients/alder-farm/client.yaml:" in err
    assert "[not-a-number]" in err


def test_another_run_comes_first(signable: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 3 while a night is at work."""
    with night_lock(signable / "records" / "night.lock", "now"):
        assert _sign(signable) == 3
    assert "at work on this book" in capsys.readouterr().err
    assert not signatures_file(signable).exists()


def test_the_list_says_whether_the_last_one_stands(signable: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 0 where it does, 1 for a draft, with what changed; nothing is written."""
    assert main(["sign", "--list", str(signable), CLIENT]) == 1
    assert capsys.readouterr().out == "A draft: nobody has signed it\n"
    _sign(signable)
    capsys.readouterr()
    assert main(["sign", "--list", str(signable), CLIENT]) == 0
    assert "It stands as signed by Ann Lee" in capsys.readouterr().out
    edit(signable / "clients" / CLIENT / "client.yaml", "land_use: pasture", "land_use: crop")
    assert main(["sign", "--list", str(signable), CLIENT]) == 1
    assert "what changed since:\n  the zone home/flat changed\n" in capsys.readouterr().out
