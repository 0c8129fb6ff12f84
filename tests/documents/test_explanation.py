"""Explanations in words."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date

import pytest

from soilrota.documents.explanation import change_sentence, explanation
from soilrota.model.changes import Change, ChangeKind
from soilrota.problems import Place
from tests.documents.made import CLIENTS, answers, example


@pytest.mark.parametrize("name", CLIENTS)
def test_every_window_of_the_example_book_can_be_explained(name: str) -> None:
    """Every reason is a numbered line; no code is shown."""
    client = example(name)
    for window in answers(client)[1]:
        lines = explanation(client, window, ())
        assert sum(line.lstrip()[:1].isdigit() for line in lines) == len(window.reasons)
        assert not any(code in " ".join(lines) for code in ("None", "open-today", "mineral-fertiliser"))


@pytest.mark.parametrize("kind", list(ChangeKind))
def test_every_change_is_a_sentence(kind: ChangeKind) -> None:
    """What, by how much, and what would follow."""
    change = Change(
        kind, Place("x.csv", 2), ("lime", "fine lime"), 1, date(2027, 2, 21), date(2027, 2, 20), date(2027, 2, 22)
    )
    said = change_sentence(change, "en-AU")
    assert said.endswith(".")
    assert "lime (fine lime)" in said
    if kind in {ChangeKind.EARLIER, ChangeKind.LATER}:
        assert f"1 day {kind} (to 21 February 2027)" in said
        assert "the best day is 22 February 2027" in said


def test_an_explanation_is_in_its_clients_language() -> None:
    """Days are joined in it."""
    client = replace(example("anvil-creek"), language="es")
    window = answers(client)[1][0]
    said = " ".join(explanation(client, window, ()))
    assert re.search(r"\d+ de \w+ al \d+ de marzo de 2027", said)


def test_a_change_without_days_says_what_it_can() -> None:
    """A day there would be, the first open one, or neither."""

    def said(opens: date | None, preferred: date | None) -> str:
        change = Change(ChangeKind.DROPPED, Place("x.csv", 2), ("lime", ""), 0, None, opens, preferred)
        return change_sentence(change, "en-AU")

    opens = date(2027, 2, 20)
    assert said(None, None) == "Without the spreading of lime there is a day."
    assert said(opens, None) == (
        "Without the spreading of lime there is a day, and the first open day 20 February 2027."
    )
    assert said(None, opens) == "Without the spreading of lime the best day is 20 February 2027."
