"""How sending went, in words and as good or not."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from soilrota.batch.sending_report import SendReport, report_lines
from soilrota.delivery.limits import Hold
from soilrota.delivery.values import Entry, State
from tests.delivery.making import new_entry, only, outbox_with


@pytest.fixture
def entry(tmp_path: Path) -> Entry:
    """Return a message."""
    with outbox_with(tmp_path / "outbox.sqlite", new_entry()) as outbox:
        return only(outbox)


@pytest.mark.parametrize(
    ("report", "is_good"),
    [
        (SendReport(), True),
        (SendReport(waiting=3), True),
        (SendReport(waiting=3, due=3, held=Hold.NOT_SET_UP), True),
        (SendReport(waiting=3, due=3, held=Hold.QUIET_HOURS), True),
        (SendReport(waiting=3, due=3, held=Hold.STOPPED), False),
        (SendReport(held=Hold.STOPPED), True),
        (SendReport(waiting=3, due=3, held=Hold.CAP), False),
        (SendReport(waiting=3, due=3, held=Hold.SERVER, fault="cannot be reached"), False),
        (SendReport(held=Hold.SERVER, fault="the outbox is damaged"), False),
    ],
)
def test_whether_somebody_must_look(report: SendReport, *, is_good: bool) -> None:
    """Not where mail waits because the book wants it to."""
    assert report.is_good is is_good


@pytest.mark.parametrize("field", ["put_off", "refused", "given_up", "unsure"])
def test_a_message_in_trouble_is_never_good(entry: Entry, field: str) -> None:
    """Each kind alone."""
    assert SendReport(sent=(entry,)).is_good
    assert not replace(SendReport(), **{field: (entry,)}).is_good


def test_in_words(entry: Entry) -> None:
    """Each message in trouble with its id and what was said; then the sum; then why the rest was not tried."""
    entry = replace(entry, answer="550 no such user")
    report = SendReport(
        sent=(entry, entry),
        refused=(replace(entry, state=State.REFUSED),),
        unsure=(replace(entry, state=State.UNSURE, answer="no answer came"),),
        waiting=5,
        due=4,
        held=Hold.CAP,
        test_address="trial@small.example",
    )
    refused, unsure, sums, held = report_lines(report)
    assert refused == f"{entry.id} to jo@farms.example, '{entry.subject}': refused, 550 no such user"
    assert f"--arrived {entry.id}" in unsure
    assert f"--again {entry.id}" in unsure
    assert sums == "2 sent, 1 refused, 1 unsure, all to trial@small.example; 5 wait"
    assert held == "4 not tried: the cap of a night is reached"


def test_a_quiet_night_is_one_line() -> None:
    """Nothing was sent and nothing waits."""
    assert list(report_lines(SendReport())) == ["nothing sent; 0 wait"]
