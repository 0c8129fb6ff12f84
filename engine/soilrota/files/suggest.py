"""Finds the name that was probably meant."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches


def nearest_name(word: str, names: Iterable[str]) -> str | None:
    """Return the name that is most like the word; None where none is like it.

    >>> nearest_name("ares_ha", ["area_ha", "name"])
    'area_ha'
    """
    by_lower = {name.lower(): name for name in names}
    found = get_close_matches(word.lower(), by_lower, n=1, cutoff=0.6)
    return by_lower[found[0]] if found else None
