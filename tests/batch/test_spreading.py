"""Files for the spreader, from the advice of the example book."""

from __future__ import annotations

import csv
import json
from dataclasses import replace
from io import StringIO
from math import fsum

import pytest

from soilrota.batch.spreading import spreader_documents
from soilrota.model.advice import ProductMix
from tests.documents.advised import CLIENTS, advised


@pytest.mark.parametrize("client_id", CLIENTS)
def test_files_hold_every_spreading_and_nothing_else(client_id: str) -> None:
    """A map a product, a table a farm; zones, rates and masses are those of the mix."""
    client, advice = advised(client_id)
    found = spreader_documents(client, advice)
    mixes = [one for one in advice.mixes if isinstance(one, ProductMix) and one.spreadings]
    maps = {f"rate_map-{mix.farm}-{one.product}.geojson" for mix in mixes for one in mix.spreadings}
    assert set(found) == maps | {f"rates-{mix.farm}.csv" for mix in mixes}
    for mix in mixes:
        rows = list(csv.DictReader(StringIO(found[f"rates-{mix.farm}.csv"].decode("utf-8-sig"))))
        assert len(rows) == len(mix.spreadings)
        spread = fsum(one.rate_kg_ha * one.area_ha for one in mix.spreadings)
        assert fsum(float(row["total_kg"]) for row in rows) == pytest.approx(spread, abs=len(rows))
        for one in mix.spreadings:
            content = json.loads(found[f"rate_map-{mix.farm}-{one.product}.geojson"])
            (zone,) = [each["properties"] for each in content["features"] if each["properties"]["zone_id"] == one.zone]
            assert zone["rate_kg_ha"] * zone["passes"] == pytest.approx(one.rate_kg_ha, abs=0.1 * one.passes)


def test_the_same_advice_gives_the_same_bytes() -> None:
    """In the same order."""
    client, advice = advised("anvil-creek")
    first, again = spreader_documents(client, advice), spreader_documents(client, advice)
    assert list(first.items()) == list(again.items())
    assert first


def test_nothing_to_spread_makes_no_file() -> None:
    """No products listed, no mix, or a mix without a spreading."""
    client, advice = advised("anvil-creek")
    without = replace(client, practice=replace(client.practice, products=None))
    assert spreader_documents(without, advice) == {}
    assert spreader_documents(client, replace(advice, mixes=())) == {}
    empty = tuple(replace(one, spreadings=()) for one in advice.mixes if isinstance(one, ProductMix))
    assert spreader_documents(client, replace(advice, mixes=empty)) == {}
