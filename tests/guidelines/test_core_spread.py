"""The table of spreads: read whole, every figure with its source, ids of the glossary."""

from __future__ import annotations

import pytest

from soilrota.guidelines import core_spread
from soilrota.guidelines.core_spread import cited_spread, least_degrees, wanted_precision, wanted_source
from soilrota.quantities.glossary import analytes


def test_the_stated_defaults() -> None:
    """40 % between cores, 8 % laboratory, within 20 % at 90 %: for any analyte without its own figures."""
    spread = cited_spread("boron")
    assert (spread.core_cv_percent, spread.laboratory_cv_percent, spread.degrees) == (40, 8, None)
    assert spread.source == cited_spread("zinc").source
    assert "common practice, no source" in spread.source
    assert (wanted_precision("boron").within_percent, wanted_precision("boron").confidence) == (20, 0.9)
    assert wanted_source("boron") == "common practice, no source"
    assert least_degrees() == 10


@pytest.mark.parametrize("table", ["cores", "laboratory", "wanted"])
def test_every_entry_is_of_the_glossary_and_has_a_source(table: str) -> None:
    """No figure stands for an analyte that does not exist, or without saying where it comes from."""
    content = core_spread._content()[table]
    assert set(content["analytes"]) <= set(analytes())
    assert all(entry["source"] for entry in (content["default"], *content["analytes"].values()))


def test_kentucky_medians() -> None:
    """University of Kentucky, SB 271, table 1: potassium 30 %, organic matter 18 %."""
    assert cited_spread("potassium").core_cv_percent == 30
    assert cited_spread("organic-matter").core_cv_percent == cited_spread("organic-carbon").core_cv_percent == 18


def test_ph_from_the_hill_country() -> None:
    """2.2 % change of composites of 27 cores: 8 % between cores; 0.1 units of pH 5.8 are 1.7 %."""
    assert cited_spread("ph").core_cv_percent == pytest.approx(2.2 / 2**0.5 * 27**0.5, abs=0.1)
    assert cited_spread("ph").laboratory_cv_percent == pytest.approx(100 * 0.1 / 5.8, abs=0.05)
    assert wanted_precision("ph").within_percent == 5
