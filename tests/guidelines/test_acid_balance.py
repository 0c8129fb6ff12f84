"""What acidifies: completeness. The figures are held in `published_values/test_lime_quality.py`."""

from __future__ import annotations

from soilrota.guidelines.acid_balance import nitrogen_acids, produce_acids


def test_produce() -> None:
    """Ranges in order; milk is by the kilolitre; what was not read says so."""
    rows = produce_acids()
    assert all(0 < row.low <= row.high for row in rows.values())
    assert {name for name, row in rows.items() if row.per == "kL"} == {"milk"}
    assert rows["lucerne-hay"].cited.status == "unverified"


def test_leaching_never_acidifies_less() -> None:
    """Nitrate that is leached leaves its acid behind; nitrate fertiliser has no such figure."""
    rows = nitrogen_acids()
    assert all(row.leached is None or row.leached >= row.taken_up for row in rows.values())
    assert rows["nitrate"].leached is None
    assert rows["nitrate"].cited.status == "verified"
    assert rows["ammonium-sulphate"].leached_status == "unverified"
