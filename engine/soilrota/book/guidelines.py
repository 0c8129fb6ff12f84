"""From the practice's own files of guideline sets to the model, each laid over the shipped set that it overrides."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from soilrota.book.parts import Located
from soilrota.guidelines.sets import build_set, guideline_sets, laid_over
from soilrota.model.guideline import GuidelineSet


def build_own_set(set_id: str, file: Located[Mapping[str, Any]]) -> Located[GuidelineSet]:
    """Return the set of one file, as it stands there; its id is the file's name."""
    return file.holding(build_set(set_id, file.data, file.at, is_own=True))


def own_sets(written: Iterable[Located[GuidelineSet]]) -> dict[str, GuidelineSet]:
    """Return the practice's own sets by id, as they hold.

    A set that overrides one that does not exist stands alone; the rule `overridden_sets_exist` says so.
    """
    return {one.value.id: _as_it_holds(one.value) for one in written}


def _as_it_holds(own: GuidelineSet) -> GuidelineSet:
    """Return an own set laid over the shipped one that it overrides."""
    below = guideline_sets().get(own.overrides) if own.overrides else None
    return own if below is None else laid_over(own, below)
