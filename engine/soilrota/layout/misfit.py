"""Why a pattern does not fit into what is left of a zone."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from soilrota.model.layout import Fact, LayoutRule


@dataclass(frozen=True, slots=True)
class Misfit:
    """A pattern that does not fit: the rule that says why, and its facts (see `LayoutRule`)."""

    rule: LayoutRule
    facts: Mapping[str, Fact]
