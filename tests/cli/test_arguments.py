"""What may be asked, and the help for it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from soilrota.cli.arguments import parser


def _refused(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    """Return what is said of words that are refused."""
    with pytest.raises(SystemExit) as ended:
        parser().parse_args(words)
    assert ended.value.code == 2
    out, err = capsys.readouterr()
    assert out == ""
    return err


def test_a_night_s_arguments() -> None:
    """All options of `overnight` are read into values."""
    chosen = parser().parse_args(
        ["overnight", "book", "--out", "out", "--as-of", "2027-02-15", "--only", "a", "b", "--only", "c", "--jobs", "3"]
    )
    assert (chosen.book, chosen.out, chosen.as_of) == (Path("book"), Path("out"), date(2027, 2, 15))
    assert (chosen.only, chosen.jobs) == (["a", "b", "c"], 3)


def test_what_is_left_out_is_left_open() -> None:
    """Date and workers are chosen later."""
    chosen = parser().parse_args(["overnight", "book", "--out", "out"])
    assert (chosen.as_of, chosen.only, chosen.jobs) == (None, [], None)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("overnigth",), "there is no command overnigth; did you mean overnight?"),
        (
            ("zzz",),
            "no command zzz; choose one of overnight, intake, check, explain, sign, send, report, new, ",
        ),
        (("overnight", "book"), "--out"),
        (("overnight", "book", "--out", "o", "--as-of", "15/02/2027"), "write it as in 2027-02-15"),
        (("overnight", "book", "--out", "o", "--as-of", "2027-02-30"), "2027-02-30 is not a day"),
        (("overnight", "book", "--out", "o", "--jobs", "0"), "0 is not a number of at least 1"),
        (("overnight", "book", "--out", "o", "--jobs", "two"), "two is not a number of at least 1"),
        ((), "COMMAND"),
        (("check",), "PATH"),
        (("new", "book"), "CLIENT"),
    ],
)
def test_words_that_mean_nothing_are_refused_with_a_hint(
    capsys: pytest.CaptureFixture[str], words: tuple[str, ...], said: str
) -> None:
    """What is wrong stands on standard error, with what was meant or where to look."""
    err = _refused(capsys, *words)
    assert said in err
    assert "Try: soilrota" in err


@pytest.mark.parametrize("words", [(), ("overnight",), ("check",), ("new",)])
def test_help_has_an_example_and_says_how_a_command_ends(
    capsys: pytest.CaptureFixture[str], words: tuple[str, ...]
) -> None:
    """Help goes to standard output and exits with 0."""
    with pytest.raises(SystemExit) as ended:
        parser().parse_args([*words, "--help"])
    out, err = capsys.readouterr()
    assert (ended.value.code, err) == (0, "")
    assert ("Exit codes" in out) or ("Example" in out)
    assert max(map(len, out.splitlines())) <= 100


def test_what_send_takes() -> None:
    """Ids that people name may be repeated; nothing by default."""
    chosen = parser().parse_args(["send", "book", "--again", "a", "--again", "b", "--arrived", "c", "--dry-run"])
    assert (chosen.again, chosen.arrived, chosen.dry_run) == (["a", "b"], ["c"], True)
    chosen = parser().parse_args(["send", "book"])
    assert (chosen.again, chosen.arrived, chosen.dry_run) == ([], [], False)
