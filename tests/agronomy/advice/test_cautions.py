"""Ids of cautions."""

from __future__ import annotations

import re

from soilrota.agronomy.advice.cautions import Caution


def test_ids_are_plain_words() -> None:
    """Small letters and hyphens, as all ids; each stands once."""
    assert all(re.fullmatch(r"[a-z]+(-[a-z]+)*", one) for one in Caution)
    assert len(set(Caution)) == len(Caution.__members__)
