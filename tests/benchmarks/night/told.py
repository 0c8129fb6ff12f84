"""Ratios as they are told: the median of the rounds, their range, and what was to be reached."""

from __future__ import annotations

from collections.abc import Sequence
from statistics import median


def tell(words: str, ratios: Sequence[float], goal: str = "") -> None:
    """Print the median of some ratios with the least and the greatest."""
    span = f"{min(ratios):.2f} to {max(ratios):.2f}, {len(ratios)} readings"
    print(f"  {words}: {median(ratios):.2f} ({span})" + (f"; {goal}" if goal else ""), flush=True)


def heading(words: str) -> None:
    """Print what is measured next."""
    print(f"\n{words}", flush=True)
