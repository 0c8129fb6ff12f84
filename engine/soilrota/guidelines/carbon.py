"""Figures for organic carbon, from the shipped table."""

from __future__ import annotations

from soilrota.guidelines.cited_tables import Figure, cited_table
from soilrota.model.guideline import Source, Status

_TABLE = "carbon"


def carbon_formula(quantity: str) -> tuple[Source, Status]:
    """Return where the formula of a quantity comes from, and whether it was read there."""
    return cited_table(_TABLE).formula(quantity)


def walkley_black_factor() -> Figure:
    """Return by what carbon by Walkley and Black is multiplied for total organic carbon [-]."""
    return _figure("walkley_black")


def published_factors() -> tuple[Figure, ...]:
    """Return the factors that publications give; they make up the range of the one that is used [-]."""
    table = cited_table(_TABLE)
    return tuple(table.figure(row) for row in table.content["walkley_black_published"])


def organic_matter_factor() -> Figure:
    """Return organic matter over organic carbon [-]."""
    return _figure("organic_matter")


def chloride_interferes_above() -> Figure:
    """Return the chloride above which it is found as carbon by Walkley and Black [mg/kg]."""
    return _figure("chloride_interferes_above")


def _figure(name: str) -> Figure:
    """Return a figure of the table."""
    table = cited_table(_TABLE)
    return table.figure(table.content[name])
