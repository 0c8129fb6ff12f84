"""Reasons."""

from __future__ import annotations

from soilrota.quantities import Refusal


def test_a_reason_is_one_line() -> None:
    """Found, expected and mend stand in one sentence each."""
    reason = Refusal("'x': no number", "a number", "correct the cell")
    assert str(reason) == "'x': no number; expected a number. To mend: correct the cell."
