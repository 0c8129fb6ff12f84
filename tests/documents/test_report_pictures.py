"""Which pictures a zone has."""

from __future__ import annotations

from soilrota.documents.report_pictures import profiles, share_bars
from tests.documents.reports import farm_grounds, shares


def test_profiles_where_there_are_layers() -> None:
    """One an analysis; none for one layer."""
    home = farm_grounds("anvil-creek")
    topsoil, deep = home.of_zone("ridge")
    assert profiles(topsoil, "en-AU") == ()
    assert len(profiles(deep, "en-AU")) == 2
    assert "pH (CaCl2) by depth: 5.4 at 0–10 cm, 5.2 at 10–20 cm, 4.9 at 20–30 cm." in profiles(deep, "en-AU")[0]


def test_shares_where_they_were_reckoned() -> None:
    """Not made up where the acidity was not measured; told as the list tells them."""
    judged = farm_grounds("anvil-creek").judged[0]
    assert share_bars(judged, "en-AU") == ()
    (bar,) = share_bars(shares(judged), "en-AU")
    assert "Shares of the exchange capacity, 0–10 cm: Calcium 68.0%, Magnesium 17.5%," in bar
