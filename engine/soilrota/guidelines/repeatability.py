"""How much results of one laboratory on one soil differ, from the shipped table."""

from __future__ import annotations

from soilrota.guidelines.cited_tables import citation, cited_table
from soilrota.guidelines.core_spread import cited_spread
from soilrota.quantities import split_code

_TABLE = "repeatability"


def repeatability_cv(code: str) -> float:
    """Return the coefficient of variation within one laboratory [-].

    Args:
        code: analysis, analyte.method; one that the table does not have gets the laboratory's part of core_spread.yaml.

    >>> repeatability_cv("phosphorus.colwell")
    0.1
    """
    row = cited_table(_TABLE).content["analyses"].get(code)
    if row is None:
        return cited_spread(split_code(code)[0]).laboratory_cv_percent / 100
    return float(max(row["two_sd"])) / 2 / 100


def repeatability_source(code: str) -> str:
    """Return where the figure of an analysis comes from, in one line."""
    table = cited_table(_TABLE)
    row = table.content["analyses"].get(code)
    if row is None:
        return cited_spread(split_code(code)[0]).source.partition("laboratory: ")[2]
    return citation(table.source(row))
