"""Words on the streams."""

from __future__ import annotations

import io

import pytest

from soilrota.cli.speech import complain, counted, say, say_problems
from soilrota.problems import Place, warning


def test_data_and_messages_go_to_their_own_streams(capsys: pytest.CaptureFixture[str]) -> None:
    """What is said is data; what is complained of is not."""
    say("data")
    complain("message")
    assert capsys.readouterr() == ("data\n", "soilrota: message\n")


def test_problems_are_one_a_line() -> None:
    """Each problem has its line behind the same text."""
    stream = io.StringIO()
    say_problems([warning("zone-mixed", Place("a.yaml", 2, 3), "two soils", "one", "split it")] * 2, stream, "book/")
    line = "book/a.yaml:2:3: warning [zone-mixed] two soils; expected one. To mend: split it.\n"
    assert stream.getvalue() == line * 2


def test_counts_agree_with_their_nouns() -> None:
    """One is singular."""
    assert [counted(number, "client") for number in (0, 1, 2)] == ["0 clients", "1 client", "2 clients"]
