"""Files for the spreader of one client: a rate map a product, a table of rates a farm."""

from __future__ import annotations

from soilrota.agronomy.rate_map import rate_maps
from soilrota.batch.advising import ClientAdvice
from soilrota.documents.spreader_files import rate_map_geojson, rates_csv
from soilrota.model.advice import ProductMix
from soilrota.model.client import Client


def spreader_documents(client: Client, advice: ClientAdvice) -> dict[str, bytes]:
    """Return the files of every farm that is to be spread on, by name; none where nothing is.

    Names are `rate_map-<farm>-<product>.geojson` and `rates-<farm>.csv`, with ids.

    Args:
        client: the client, whose practice lists products.
        advice: what it is advised.
    """
    products = client.practice.products
    if products is None:
        return {}
    farms = {farm.id: farm for farm in client.farms}
    found: dict[str, bytes] = {}
    for mix in advice.mixes:
        if isinstance(mix, ProductMix) and mix.spreadings:
            maps = rate_maps(mix, farms[mix.farm], products)
            found |= {f"rate_map-{one.farm}-{one.product}.geojson": rate_map_geojson(one) for one in maps}
            found[f"rates-{mix.farm}.csv"] = rates_csv(maps)
    return found
