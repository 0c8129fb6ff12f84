"""Everything that can be signed, with one change for every part of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from soilrota.batch.signing import SignedValues
from soilrota.model.advice import Input, Need, Step
from soilrota.model.client import Client, GapOverride, Zone
from soilrota.model.cropping import CropYear
from soilrota.model.guideline import GuidelineRow, GuidelineSet, Sense, Source, Status
from soilrota.model.products import Product, ProductKind, ProductList
from soilrota.model.result_findings import Acceptance, ResultRule
from soilrota.model.results import Target
from soilrota.problems import Place
from tests.documents.made import example

PLACE = Place("clients/anvil-creek/client.yaml", 1, 1)


def _row(row_id: str, critical: float) -> GuidelineRow:
    """Return a row of an invented guideline."""
    return GuidelineRow(
        id=row_id,
        analyte="phosphorus",
        method="colwell",
        unit="mg/kg",
        top_cm=0,
        bottom_cm=10,
        sense=Sense.SUFFICIENCY,
        land_uses=(),
        crops=(),
        textures=(),
        rainfall_zones=(),
        ranges=(),
        goals=(),
        critical=critical,
        line=None,
        critical_low=None,
        critical_high=None,
        target=None,
        limit=None,
        classes=(),
        decimals=None,
        basis="",
        source=Source("made-up", "Nobody", 0, "Invented for tests"),
        status=Status.UNVERIFIED,
        note="",
        place=PLACE,
    )


def _product() -> Product:
    """Return an invented product."""
    return Product(
        id="ground-lime",
        name="Ground lime",
        kind=ProductKind.LIME,
        material_class="lime",
        contents={"calcium": 36.0},
        neutralising_percent=92,
        fractions=(),
        moisture_percent=1,
        purity_percent=None,
        cadmium_mg_kg_p=None,
        price_per_t=60,
        form="",
        least_kg_ha=500,
        most_kg_ha=5000,
        step_kg_ha=100,
        pack_kg=0,
        land_uses=(),
        place=PLACE,
    )


def everything() -> SignedValues:
    """Return values that have a part of every kind."""
    client = example("anvil-creek")
    acceptance = Acceptance("", "", "home/hill", None, ResultRule.HISTORY, (), "limed", "mara-ellis", PLACE)
    target = Target("ph", "cacl2", "pH", 5.2, None, (), (), 0, 10, "agreed", PLACE)
    override = GapOverride("gypsum", 2, (), (), "a light dressing", PLACE)
    client = replace(client, acceptances=(acceptance,), targets=(target,), gap_overrides=(override,))
    rows = (_row("first", 20), _row("second", 25))
    return SignedValues(
        client,
        sets=(GuidelineSet("invented", "Invented", "", (), (), "", rows),),
        cropping=(CropYear("home", "hill", 2027, "wheat", 3.5, None, "grain", PLACE),),
        products=ProductList("AUD", 9, 120, {"ground-lime": _product()}),
        tables={"plausibility": "0" * 64},
        needs=(Need("home", "hill", Input.LIME, 1.2, 0.8, 1.7, (Step("target", 1.2),)),),
    )


def _client(values: SignedValues, **fields: Any) -> SignedValues:
    """Return the values with a client of which some fields are others."""
    return replace(values, client=replace(values.client, **fields))


def _first(values: SignedValues, name: str, change: Callable[[Any], Any]) -> SignedValues:
    """Return the values with the first of some records of the client changed."""
    first, *others = getattr(values.client, name)
    return _client(values, **{name: (change(first), *others)})


def _zone(client: Client, change: Callable[[Zone], Zone]) -> tuple[Any, ...]:
    """Return the farms with the first zone changed."""
    farm, *others = client.farms
    return (replace(farm, zones=(change(farm.zones[0]), *farm.zones[1:])), *others)


def _product_changed(values: SignedValues, **fields: Any) -> SignedValues:
    """Return the values with another list of products."""
    assert values.products is not None
    return replace(values, products=replace(values.products, **fields))


def _protocols(client: Client) -> dict[str, Any]:
    """Return the protocols, the pasture's with another interval."""
    protocol = client.protocols["topsoil-pasture"]
    return {**client.protocols, protocol.id: replace(protocol, interval_months=24)}


#: What is changed, by the name of the part that changes.
CHANGES: dict[str, Callable[[SignedValues], SignedValues]] = {
    "results": lambda all_: _first(all_, "results", lambda one: replace(one, value=one.value + 1)),
    "notes": lambda all_: _first(all_, "field_notes", lambda one: replace(one, cores=3)),
    "acceptances": lambda all_: _first(all_, "acceptances", lambda one: replace(one, reason="no reason")),
    "guideline/invented": lambda all_: replace(all_, sets=(replace(all_.sets[0], goal="95"),)),
    "guideline/invented/phosphorus.colwell": lambda all_: replace(
        all_, sets=(replace(all_.sets[0], rows=(_row("first", 21), all_.sets[0].rows[1])),)
    ),
    "targets/ph.cacl2": lambda all_: _first(all_, "targets", lambda one: replace(one, low=5.5)),
    "applications": lambda all_: _first(all_, "applications", lambda one: replace(one, rate_kg_ha=1.5)),
    "cropping/home/hill/2027": lambda all_: replace(all_, cropping=(replace(all_.cropping[0], target_yield=4),)),
    "products": lambda all_: _product_changed(all_, pass_price_ha=10),
    "products/ground-lime": lambda all_: _product_changed(
        all_, products={"ground-lime": replace(_product(), price_per_t=61)}
    ),
    "protocols/topsoil-pasture": lambda all_: _client(all_, protocols=_protocols(all_.client)),
    "zones": lambda all_: _client(
        all_, farms=_zone(all_.client, lambda zone: replace(zone, clay_percent=(zone.clay_percent or 0) + 1))
    ),
    "waits/gypsum": lambda all_: _first(all_, "gap_overrides", lambda one: replace(one, months=3)),
    "client": lambda all_: _client(all_, adviser="owen-harte"),
    "advice/plausibility": lambda all_: replace(all_, tables={"plausibility": "1" * 64}),
    "needs/home/hill/lime": lambda all_: replace(all_, needs=(replace(all_.needs[0], amount=1.3),)),
}


def moved(values: SignedValues) -> SignedValues:
    """Return the same values from files whose rows stand in another order and on other lines."""

    def shuffled(rows: tuple[Any, ...]) -> tuple[Any, ...]:
        return tuple(
            replace(row, place=Place(row.place.file, row.place.line + 7, 1, row.place.path)) for row in reversed(rows)
        )

    client = values.client
    names = ("results", "field_notes", "applications", "acceptances", "targets", "gap_overrides")
    farms = tuple(replace(farm, zones=shuffled(farm.zones)) for farm in reversed(client.farms))
    return replace(
        _client(values, farms=farms, **{name: shuffled(getattr(client, name)) for name in names}),
        cropping=shuffled(values.cropping),
    )


def said_elsewhere(values: SignedValues) -> SignedValues:
    """Return the values with changes of what nobody signs: when and how to sample, whom to ring."""
    later = tuple(replace(one, day=one.day + timedelta(days=1)) for one in values.client.decisions)
    farms = _zone(values.client, lambda zone: replace(zone, last_sampled=(), fixed_point=(143.0, -37.0)))
    return _client(values, contacts=(), decisions=later, blackouts=(), farms=farms)


#: A day for signatures.
DAY = date(2027, 3, 15)
