"""How much of manure a crop finds."""

from __future__ import annotations

import pytest

from soilrota.guidelines.manure import manure_share
from soilrota.model.advice import Input


@pytest.mark.parametrize("what", [Input.PHOSPHORUS, Input.POTASSIUM])
def test_nine_tenths_where_a_source_says_so(what: Input) -> None:
    """Oklahoma State University, Nutrient availability: a 90 % availability factor for phosphorus and potassium."""
    found = manure_share("manure", what, "US")
    assert found is not None
    assert found.value == 0.9
    assert found.low <= found.value <= found.high <= 1
    assert "Oklahoma" in found.cited.source.author


@pytest.mark.parametrize(
    ("material_class", "what", "country"),
    [("manure", Input.NITROGEN, "US"), ("manure", Input.PHOSPHORUS, "AU"), ("compost", Input.PHOSPHORUS, "US")],
)
def test_nothing_is_borrowed(material_class: str, what: Input, country: str) -> None:
    """Not for another nutrient, country or class."""
    assert manure_share(material_class, what, country) is None
