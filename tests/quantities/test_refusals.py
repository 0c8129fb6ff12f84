"""Reasons."""

from __future__ import annotations

from soilrota.quantities import Refusal, read_unit, read_value
from soilrota.quantities.refusals import shown


def test_a_reason_is_one_line() -> None:
    """Found, expected and mend stand in one sentence each."""
    reason = Refusal("'x': no number", "a number", "correct the cell")
    assert str(reason) == "'x': no number; expected a number. To mend: correct the cell."


def test_what_is_quoted_stays_short_and_on_one_line() -> None:
    """A cell of a thousand letters, with line ends and control signs, is quoted in part."""
    assert shown("see\r\n\tnote\x07") == "'see note\ufffd'"
    assert len(shown("x" * 1000)) < 70
    for reason in (read_value("see\nnote " * 500), read_unit("x\n" * 500), read_value("5 " + "x" * 5000)):
        assert isinstance(reason, Refusal)
        assert len(reason.found) < 160
        assert len(str(reason).splitlines()) == 1
