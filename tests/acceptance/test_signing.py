"""Signing on the command line, over a small book with results."""

from __future__ import annotations

import json
import os
import random
import subprocess
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.acceptance.signed_book import CLIENT, DAY, make_signable, results_file, signatures_file
from tests.acceptance.small_book import AS_OF, command, edit, night, soilrota, tree

#: Moments at which signing is killed; the full count runs once before an issue is closed.
KILLS = 50 if os.environ.get("SOILROTA_LONG") else 4

TARGET = "targets:\n  - {analyte: ph, method: cacl2, unit: pH, low: 5.2, top_cm: 0, bottom_cm: 10, source: agreed}\n"


@pytest.fixture
def signable(book: Path) -> Path:
    """Return a book of which one client can be signed for."""
    return make_signable(book)


def _sign(book: Path, *words: str) -> subprocess.CompletedProcess[str]:
    """Sign for the client as its adviser."""
    return soilrota("sign", book, CLIENT, "--as", "ann-lee", "--as-of", DAY, *words)


def _list(book: Path) -> subprocess.CompletedProcess[str]:
    """List the signatures."""
    return soilrota("sign", "--list", book, CLIENT)


def _client(book: Path, old: str, new: str) -> None:
    edit(book / "clients" / CLIENT / "client.yaml", old, new)


def _result(book: Path) -> None:
    edit(results_file(book), "cacl2,4.6,", "cacl2,4.7,")


def _application(book: Path) -> None:
    with (book / "clients" / CLIENT / "applications.csv").open("a", encoding="utf-8") as file:
        file.write("home,flat,lime,ground limestone,2026-11-05,2026-11-05,done,2500,\n")


def _protocol(book: Path) -> None:
    edit(book / "protocols.yaml", "interval_months: 12", "interval_months: 24")


CHANGES: dict[str, tuple[Callable[[Path], None], str]] = {
    "result": (_result, "results of home/flat of 4 February 2027 changed"),
    "application": (_application, "a new application of lime to home on 5 November 2026"),
    "protocol": (_protocol, "the protocol topsoil changed"),
    "zone": (lambda book: _client(book, "area_ha: 9", "area_ha: 9.5"), "the zone home/flat changed"),
    "target": (
        lambda book: _client(
            book,
            "farms:",
            f"{TARGET}farms:",
        ),
        "a new target for pH (CaCl2)",
    ),
}


@pytest.mark.parametrize("name", CHANGES)
def test_signed_then_one_input_changed(signable: Path, name: str) -> None:
    """Signed; one input changed: a draft, and the change named; signed again it stands."""
    change, words = CHANGES[name]
    signed = _sign(signable)
    assert (signed.returncode, signed.stderr) == (0, "")
    assert _list(signable).returncode == 0
    change(signable)
    listed = _list(signable)
    assert (listed.returncode, listed.stderr) == (1, "")
    assert f"what changed since:\n  {words}\n" in listed.stdout
    assert _sign(signable).returncode == 0
    assert _list(signable).returncode == 0
    assert len(signatures_file(signable).read_text(encoding="utf-8").splitlines()) == 2


def test_a_moved_row_or_a_comment_changes_nothing(signable: Path) -> None:
    """What a file says is signed, not how it is written."""
    assert _sign(signable).returncode == 0
    heading, first, second = results_file(signable).read_text(encoding="utf-8").splitlines()
    results_file(signable).write_text(f"{heading}\n{second}\n{first}\n", encoding="utf-8")
    _client(signable, "area_ha: 9", "area_ha: 9.0      # as the map has it")
    assert _list(signable).returncode == 0
    again = _sign(signable)
    assert "signed already" in again.stdout
    assert len(signatures_file(signable).read_text(encoding="utf-8").splitlines()) == 1


def test_nothing_to_sign_and_nobody_to_sign_it(signable: Path) -> None:
    """Exit code 2 and a way out; no traceback."""
    nothing = soilrota("sign", signable, "birch-farm", "--as-of", DAY)
    assert (nothing.returncode, nothing.stdout) == (2, "")
    assert "birch-farm has no results yet" in nothing.stderr
    stranger = soilrota("sign", signable, CLIENT, "--as", "lou-example", "--as-of", DAY)
    assert stranger.returncode == 2
    assert "[not-the-adviser]" in stranger.stderr
    assert not signatures_file(signable).exists()


@pytest.mark.parametrize("seed", range(KILLS))
def test_killed_at_any_moment_it_is_signed_or_not(signable: Path, seed: int) -> None:
    """After kill -9 the record is whole or not there, and the next signing completes it."""
    assert _sign(signable).returncode == 0
    _result(signable)
    first = signatures_file(signable).read_bytes()
    words = command("sign", signable, CLIENT, "--as-of", DAY)
    with subprocess.Popen(words, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, text=True) as running:
        time.sleep(random.Random(seed).uniform(0.2, 1.2))
        running.kill()
        running.communicate()
    record = signatures_file(signable).read_bytes()
    assert record.startswith(first)
    assert all(json.loads(line)["client"] == CLIENT for line in record.decode().splitlines())
    assert _list(signable).returncode == (1 if record == first else 0)
    assert _sign(signable).returncode == 0
    assert _list(signable).returncode == 0
    assert len(signatures_file(signable).read_text(encoding="utf-8").splitlines()) == 2
    assert [path.name for path in signatures_file(signable).parent.iterdir()] == [f"{CLIENT}.jsonl"]


def _without_reports(files: dict[str, str]) -> dict[str, str]:
    """Return the files of an output folder but for farm reports."""
    return {name: digest for name, digest in files.items() if "farm_report" not in name}


def test_a_night_does_not_mind(signable: Path, out: Path) -> None:
    """A signature makes no client's programme again; only the report changes, from a draft to a signed one."""
    assert night(signable, out).returncode == 0
    before = _without_reports(tree(out))
    assert _sign(signable).returncode == 0
    again = night(signable, out, as_of=AS_OF)
    assert "3 unchanged" in again.stdout
    assert _without_reports(tree(out)) == before
