"""Corrected reports in words."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from soilrota.documents import Found, programme_view
from soilrota.documents.correction_sentences import correction_sentence
from soilrota.model.results import Correction
from tests.documents.made import answers, example, view


def test_what_changed_what_is_new_and_what_is_not_repeated() -> None:
    """The example book's corrected report, and the same with one side of it alone."""
    client = example("dune-end-sheep")
    (correction,) = client.corrections
    what = "Report nb-2025-dune-03, issue 2: Colwell P of Limestone rise, 0–10 cm, is"
    assert correction_sentence(correction, client) == f"{what} 37 mg/kg and no longer 35 mg/kg"
    assert correction_sentence(replace(correction, earlier=None), client) == f"{what} new: 37 mg/kg"
    assert (
        correction_sentence(replace(correction, later=None), client)
        == f"{what} not repeated; 35 mg/kg of the earlier issue stands"
    )


def test_a_programme_lists_them() -> None:
    """One sentence each, with a full stop; without corrections the programme does not speak of any."""
    client = example("dune-end-sheep")
    corrections: tuple[Correction, ...] = client.corrections
    shown = programme_view(client, *answers(client, date(2025, 4, 1)), found=Found(corrections=corrections))
    assert [words[-1] for words in shown.corrections] == ["."] * len(corrections)
    assert view(client).corrections == ()
