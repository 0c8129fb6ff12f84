"""Rates by class: look-up and silence. The figures are held in `published_values/test_offtake.py`."""

from __future__ import annotations

from soilrota.guidelines.rates import index_rates, iowa_rate, tri_state_figures
from soilrota.guidelines.sets import guideline_sets


def test_names_are_those_of_the_sets() -> None:
    """Indices are classes of the British sets, classes those of the Iowa set; nothing can be looked up in vain."""
    british = {
        one.name
        for name in ("united-kingdom", "northern-ireland")
        for row in guideline_sets()[name].rows
        for one in row.classes
    }
    assert set(index_rates()) <= british
    for row in guideline_sets()["iowa-2013"].rows:
        for one in row.classes:
            assert iowa_rate("K2O", "corn", one.name) is not None


def test_nil_adds_nothing() -> None:
    """Where nothing is spread, nothing is added."""
    assert all(rate.add == 0 for rate in index_rates().values() if rate.is_nil)


def test_iowa() -> None:
    """At the optimum class of phosphorus the harvest's share is given back; the phosphate rates are from memory."""
    optimum = iowa_rate("P2O5", "corn", "optimum")
    assert optimum is not None
    assert (optimum.rate, optimum.cited.status) == (None, "unverified")
    assert "superseded" in optimum.cited.note
    assert iowa_rate("K2O", "oats", "low") is None
    assert iowa_rate("K2O", "corn", "index-0") is None


def test_tri_state() -> None:
    """Maintenance to 15 ppm above the critical level, drawdown over 10 more, 20 lb more potash; all from memory."""
    figures = tri_state_figures()
    assert (figures.maintenance, figures.drawdown, figures.potash_extra) == (15, 10, 20)
    assert figures.cited.status == "unverified"
