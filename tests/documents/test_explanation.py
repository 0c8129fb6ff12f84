"""Explanations in words."""

from __future__ import annotations

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
