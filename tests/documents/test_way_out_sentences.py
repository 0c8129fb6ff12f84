"""Every way out has a sentence with its days and its cost."""

from __future__ import annotations

from datetime import date

import pytest

from soilrota.documents.way_out_sentences import way_out_sentence
from soilrota.model.windows import Span, WayOut, WayOutKind


@pytest.mark.parametrize("kind", list(WayOutKind))
def test_every_way_out_has_a_sentence_with_its_cost(kind: WayOutKind) -> None:
    """Days, the best of them, and what it costs."""
    spans = (Span(date(2027, 4, 1), date(2027, 4, 30)),)
    said = way_out_sentence(WayOut(kind, spans, date(2027, 4, 1), 1, 2), "en-AU")
    begins_today = kind in {WayOutKind.BEFORE_PLANNED, WayOutKind.MOVE_PLANNED}
    assert ("up to 30 April 2027, the sooner the better" if begins_today else "1 April to 30 April 2027") in said
    assert "1 day outside the season" in said
    assert "2 months later than due" in said
    free = way_out_sentence(WayOut(kind, spans, date(2027, 4, 1), 0, 0), "en-AU")
    assert "cost" not in free
