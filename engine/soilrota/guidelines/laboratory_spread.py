"""How much laboratories differ on one soil, from the shipped table."""

from __future__ import annotations

from soilrota.guidelines.cited_tables import cited_table
from soilrota.model.guideline import Source

_TABLE = "laboratory_spread"


def laboratory_cv(code: str, value: float) -> float:
    """Return the coefficient of variation between laboratories [-].

    Args:
        code: analysis, analyte.method; one that the table does not have gets its default.
        value: the result [unit of the glossary]; at nought and below the widest figure is taken.

    >>> round(laboratory_cv("phosphorus.colwell", 30), 3)
    0.152
    """
    content = cited_table(_TABLE).content
    row, most = content["analyses"].get(code, content["default"]), float(content["most"]["flat"])
    if "flat" in row:
        return float(row["flat"]) / 100
    curve = row["factor"] * value ** row["exponent"] if value > 0 else most
    return float(min(curve, most)) / 100


def laboratory_cv_source(code: str) -> Source:
    """Return where the figure of an analysis comes from."""
    table = cited_table(_TABLE)
    return table.source(table.content["analyses"].get(code, table.content["default"]))
