"""What one laboratory repeats."""

from __future__ import annotations

import pytest

from soilrota.guidelines.cited_tables import cited_table
from soilrota.guidelines.core_spread import cited_spread
from soilrota.guidelines.repeatability import repeatability_cv, repeatability_source
from soilrota.quantities.glossary import all_codes


def test_every_row_is_of_the_glossary_and_has_its_source() -> None:
    """No figure for an analysis that does not exist."""
    table = cited_table("repeatability")
    assert set(table.content["analyses"]) <= set(all_codes())
    for code, row in table.content["analyses"].items():
        assert repeatability_source(code).startswith("Rayment and Lyons (2011)")
        assert repeatability_cv(code) == pytest.approx(max(row["two_sd"]) / 200)


def test_analyses_that_are_not_in_the_table() -> None:
    """Take the laboratory's part of the table of core spreads, with its source."""
    assert repeatability_cv("phosphorus.mehlich-3") == cited_spread("phosphorus").laboratory_cv_percent / 100
    assert repeatability_source("phosphorus.mehlich-3").startswith("common practice, no source")
