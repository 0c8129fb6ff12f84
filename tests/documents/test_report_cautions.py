"""Cautions where they belong, and notes on what a report uses."""

from __future__ import annotations

import pytest

from soilrota.documents.caution_words import caution_sentence
from soilrota.documents.cautions import DUST
from soilrota.documents.report_cautions import HOW_TO_READ, LOCAL, need_cautions, reading_notes, report_cautions
from soilrota.documents.report_grounds import FarmGrounds
from tests.documents.reports import advised, all_censored, farm_grounds, grounds_of
from tests.documents.shouting import shout, unsaid


def test_local_rules_come_first_always() -> None:
    """Dust only where lime or gypsum is advised."""
    plain = report_cautions(farm_grounds("hazel-rigg"))
    assert plain[0] == LOCAL
    assert DUST not in plain
    of_client = advised()
    assert DUST in report_cautions(FarmGrounds(of_client, of_client.client.farms[0]))
    assert DUST not in report_cautions(FarmGrounds(of_client, of_client.client.farms[1]))


def test_no_caution_is_lost_for_want_of_words() -> None:
    """One that is not known is written by its name."""
    assert list(need_cautions(["dust", "local-rules", "dust", "brand-new-caution"])) == [
        caution_sentence("dust"),
        "Mind: brand new caution.",
    ]


def test_only_what_is_used_is_explained() -> None:
    """Signs of censored values where there are any."""
    sign = "A sign < or > before a value"
    assert not any(note.startswith(sign) for note in reading_notes(farm_grounds("hazel-rigg")))
    censored = grounds_of(all_censored())
    assert any(note.startswith(sign) for note in reading_notes(FarmGrounds(censored, censored.client.farms[0])))
    assert any(note.startswith("Hollow squares") for note in reading_notes(farm_grounds("brolga-plains")))


def test_cautions_and_notes_are_said_in_the_language(monkeypatch: pytest.MonkeyPatch) -> None:
    """None is left in English, and none is lost."""
    of_client = advised()
    grounds = [FarmGrounds(of_client, farm) for farm in of_client.client.farms]
    english = [(report_cautions(one), reading_notes(one)) for one in grounds]
    shout(monkeypatch)
    said = [(report_cautions(one), reading_notes(one)) for one in grounds]
    assert [tuple(map(len, one)) for one in said] == [tuple(map(len, one)) for one in english]
    assert unsaid(str(said)) == []
    assert {HOW_TO_READ[0].upper()} <= {note for _, notes in said for note in notes}
