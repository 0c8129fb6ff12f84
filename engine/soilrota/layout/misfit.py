"""A pattern that does not fit, as a value."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from soilrota.model.layout import Fact, LayoutRule


@dataclass(frozen=True, slots=True)
class Misfit:
    """Why a pattern does not fit: the rule and its facts."""

    rule: LayoutRule
    facts: Mapping[str, Fact]
