"""Up to which day nobody hears anything new: as if every night in between had looked at every client."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from shutil import copytree

import pytest

from soilrota.batch.ledger import open_ledger
from soilrota.batch.remind_ahead import LOOKED_AHEAD
from soilrota.batch.remind_step import RemindRequest, keep_reminders
from soilrota.batch.remind_work import RemindOrder, make_reminders
from soilrota.batch.sending import OUTBOX
from soilrota.delivery.gathering import said_by
from tests.batch.test_remind_step import never, request
from tests.example_book import copy_example

FIRST, NIGHTS = date(2027, 1, 25), 24
CLIENTS = ("farrow-vines", "dune-end-sheep", "juniper-start")


def test_quiet_nights_are_those_on_which_nothing_would_be_said_or_changed(tmp_path: Path) -> None:
    """Night after night with every client read: what a night foretells of later ones comes true, to the day."""
    order = RemindOrder(copy_example(tmp_path / "book"), tmp_path / "out", "reminders", FIRST, CLIENTS)
    looked, foretold, quiet = FIRST, FIRST - timedelta(days=1), 0
    for night in range(NIGHTS):
        order = replace(order, as_of=FIRST + timedelta(days=night))
        answer = make_reminders(order)
        feeds = {name: feed.events for name, feed in answer.feeds.items()}
        is_quiet = not answer.messages and feeds == order.feeds
        if order.as_of <= foretold:
            assert is_quiet, order.as_of
            quiet += 1
        else:
            assert not is_quiet or (order.as_of - looked).days > LOOKED_AHEAD, order.as_of
            looked, foretold = order.as_of, answer.quiet_until
        order = replace(order, said=(*order.said, *said_by(answer.messages)), feeds=feeds)
    assert 0 < quiet < NIGHTS - 1


@pytest.fixture
def asked(tmp_path: Path) -> RemindRequest:
    """Return what a night asks for in the middle of winter, when one client has nothing to hear for weeks."""
    return request(copy_example(tmp_path / "book"), date(2027, 6, 20))


def test_a_quiet_night_on_a_new_date_reads_no_client(asked: RemindRequest) -> None:
    """Without the client's files nothing could be made; the record holds for some days, and not before its day."""
    with open_ledger(asked.root / "records" / "ledger.sqlite") as ledger:
        first = keep_reminders(asked, ledger, never)
        known = ledger.shared("reminders")
        assert known is not None
        assert first.faults == ()
        assert known.holds_until > asked.as_of
        copytree(asked.root / "clients", asked.root / "elsewhere")
        (asked.root / "clients" / "anvil-creek" / "client.yaml").unlink()
        for day in (asked.as_of + timedelta(days=1), known.holds_until):
            again = keep_reminders(replace(asked, as_of=day), ledger, never)
            assert (again.faults, again.messages) == ((), ())
        for day in (asked.as_of - timedelta(days=1), known.holds_until + timedelta(days=1)):
            assert keep_reminders(replace(asked, as_of=day), ledger, never).faults
            ledger.keep_shared(known)


def test_an_outbox_that_is_gone_has_told_nobody(asked: RemindRequest) -> None:
    """Everything is said again on the next night, however quiet that was to be."""
    with open_ledger(asked.root / "records" / "ledger.sqlite") as ledger:
        keep_reminders(asked, ledger, never)
        (asked.root / OUTBOX).unlink()
        keep_reminders(replace(asked, as_of=asked.as_of + timedelta(days=1)), ledger, never)
        assert (asked.root / OUTBOX).is_file()
        assert ledger.shared("reminders").made_on == asked.as_of + timedelta(days=1)  # type: ignore[union-attr]
