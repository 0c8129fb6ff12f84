"""States and entries."""

from __future__ import annotations

from pathlib import Path

from soilrota.delivery.values import OPEN, State
from tests.delivery.making import new_entry, only, outbox_with


def test_a_domain_is_told_without_regard_to_capitals(tmp_path: Path) -> None:
    """What holds up a domain holds up all its spellings."""
    with outbox_with(tmp_path / "outbox.sqlite", new_entry(address="jo@Farms.Example")) as outbox:
        assert only(outbox).domain == "farms.example"


def test_open_states_are_those_that_are_tried_by_themselves() -> None:
    """An unsure message is not among them."""
    assert set(State) - set(OPEN) == {State.SENDING, State.SENT, State.REFUSED, State.UNSURE, State.GIVEN_UP}
