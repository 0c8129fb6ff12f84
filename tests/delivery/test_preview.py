"""A message as it reads in a terminal."""

from __future__ import annotations

from pathlib import Path

from soilrota.delivery.preview import preview
from soilrota.delivery.values import Outcome, State
from soilrota.model.messages import Attachment
from tests.delivery.making import MORNING, new_entry, only, outbox_with


def test_who_what_files_and_text(tmp_path: Path) -> None:
    """And the last that was said of it; nothing in it acts upon a terminal."""
    pdf = Attachment("farm_report.pdf", "application/pdf", b"x" * 1234)
    made = new_entry("jö", "jo@farms.example", text="Sample\x1b[2J now.\n\nÜber.", html="<p>x", attachments=(pdf,))
    with outbox_with(tmp_path / "outbox.sqlite", made) as outbox:
        outbox.settle(only(outbox), Outcome(State.PUT_OFF, "451 \x1b later"), MORNING, MORNING)
        lines = preview(only(outbox), outbox.eml(only(outbox).id))
    assert lines[0].endswith(": put-off")
    assert lines[1:] == (
        "  to jo@farms.example, Home: sample before Friday, jö",
        "  last: 451   later",
        "  with farm_report.pdf, 1234 bytes",
        "  | Sample [2J now.",
        "  |",
        "  | Über.",
    )


def test_what_cannot_be_sent_shows_why(tmp_path: Path) -> None:
    """It has no text of its own."""
    with outbox_with(tmp_path / "outbox.sqlite", new_entry(address="nowhere")) as outbox:
        lines = preview(only(outbox), b"")
    assert "'nowhere' is no e-mail address" in lines[-1]
