"""Words of the field calendar."""

from __future__ import annotations

from soilrota.documents.calendar_words import WHY_LATE, WHY_UNPLACED, figure_sentences, proof_sentences
from soilrota.guidelines.field_work import field_work
from soilrota.model.field_calendar import LeftOut, Proof, WhyLate, WhyUnplaced


def test_every_reason_has_words() -> None:
    """No code reaches a reader."""
    assert set(WHY_UNPLACED) == set(WhyUnplaced)
    assert set(WHY_LATE) == set(WhyLate)


def test_how_good_a_plan_is() -> None:
    """Proved, at its bound, or so far from it, with what the bound leaves out."""
    assert "proved best" in " ".join(proof_sentences(Proof(10, 10, 0.0, 99, exact=True, leaves_out=())))
    assert "No plan gives more" in " ".join(proof_sentences(Proof(10, 10, 0.0, 99, exact=False, leaves_out=())))
    said = " ".join(proof_sentences(Proof(1200, 900, 0.25, 99, exact=False, leaves_out=tuple(LeftOut))))
    assert all(word in said for word in ("1,200", "900", "25%", "the driving", "split over days"))


def test_figures_name_their_source() -> None:
    """The house figures are printed with what they rest on."""
    assert "common practice, no source" in " ".join(figure_sentences(field_work()))
