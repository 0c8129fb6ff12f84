"""Figures for exchangeable cations, from the shipped table."""

from __future__ import annotations

from soilrota.guidelines.cited_tables import Figure, cited_table
from soilrota.model.guideline import Source, Status

_TABLE = "cations"


def cation_formula(quantity: str) -> tuple[Source, Status]:
    """Return where the formula of a quantity comes from, and whether it was read there."""
    return cited_table(_TABLE).formula(quantity)


def salts_above() -> Figure:
    """Return the conductivity 1:5 [dS/m] above which soluble sodium inflates the exchangeable."""
    table = cited_table(_TABLE)
    return table.figure(table.content["salts_above"])


def chloride_a_charge() -> Figure:
    """Return the chloride [mg/kg] that stands for one cmol(+)/kg of soluble sodium."""
    table = cited_table(_TABLE)
    return table.figure(table.content["chloride_a_charge"])


def no_acidity_from() -> dict[str, Figure]:
    """Return by analysis the pH from which exchange acidity that was not measured counts as nought."""
    table = cited_table(_TABLE)
    return {code: table.figure(row) for code, row in table.content["no_acidity_from"].items()}
