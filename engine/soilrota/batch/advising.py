"""What a client is advised: needs of every zone, the cheapest mix of each farm, what to do first, what it closes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from pathlib import Path

from soilrota.agronomy.advice.effectiveness import effectiveness_of
from soilrota.agronomy.advice.needs import needs_of
from soilrota.agronomy.advice.nutrient_needs import Choices
from soilrota.agronomy.mix.product_mix import product_mix
from soilrota.agronomy.priorities import priorities
from soilrota.batch.judging import ClientJudgement, judge_client, sample_findings
from soilrota.guidelines.manure import manure_share
from soilrota.guidelines.nutrient_regions import is_organic
from soilrota.model.advice import Closing, Input, Need, NoMix, NoNeed, Priority, ProductMix
from soilrota.model.applications import Application, Standing
from soilrota.model.client import Client, Farm, Zone
from soilrota.model.findings import SampleFinding
from soilrota.model.products import Product, ProductKind, ProductList
from soilrota.model.samples import FieldNote
from soilrota.model.windows import Task, Window
from soilrota.problems import Place
from soilrota.timing import closes_until, tasks_of, window_of

_DAY = timedelta(days=1)
#: Marks an application that is only thought of.
_ADVICE = Place("advice")


@dataclass(frozen=True, slots=True)
class ClientAdvice:
    """What a client is advised.

    Attributes:
        needs: every need of every judged zone, or why there is none.
        mixes: of each farm, where the practice lists products: what cannot be met first, then the mix of the rest.
        priorities: actions by expected worth, where the practice says what a response is worth.
        closings: what each spreading of the mixes does to sampling.
    """

    needs: tuple[Need | NoNeed, ...] = ()
    mixes: tuple[ProductMix | NoMix, ...] = ()
    priorities: tuple[Priority, ...] = ()
    closings: tuple[Closing, ...] = ()

    def of(self, farm: str, zone: str) -> tuple[Need | NoNeed, ...]:
        """Return the needs of one zone."""
        return tuple(one for one in self.needs if (one.farm, one.zone) == (farm, zone))


def advice_on(root: Path, client: Client, day: date) -> ClientAdvice:
    """Return what a client is advised on a day, from its book: findings, crops and results brought together.

    Args:
        root: the book's folder.
        client: the client.
        day: day of the advice.
    """
    findings = sample_findings(root, client)
    return advise_client(client, judge_client(client, findings), findings, day)


def client_needs(
    client: Client, judged: ClientJudgement, findings: Sequence[SampleFinding], day: date
) -> tuple[Need | NoNeed, ...]:
    """Return every need of every judged zone, or why there is none.

    Args:
        client: the client.
        judged: what is judged of it.
        findings: on its samples.
        day: day of the advice.
    """
    products = client.practice.products
    listed = tuple(products.products.values()) if products else ()
    choices = Choices(on=day, products=listed, findings=tuple(findings))
    return tuple(
        need
        for farm in client.farms
        for zone in farm.zones
        for need in needs_of(client, zone, judged.of(farm.id, zone.id), choices)
    )


def advise_client(
    client: Client, judged: ClientJudgement, findings: Sequence[SampleFinding], day: date
) -> ClientAdvice:
    """Return what a client is advised; the arguments are those of `client_needs`."""
    needs = client_needs(client, judged, findings, day)
    products = client.practice.products
    if products is None:
        return ClientAdvice(needs)
    mixes: list[ProductMix | NoMix] = []
    for farm in client.farms:
        mixes += _mixes(client, farm, [one for one in needs if isinstance(one, Need) and one.farm == farm.id], products)
    found = [one for one in mixes if isinstance(one, ProductMix)]
    wanted = [one for one in needs if isinstance(one, Need)]
    worth = _values(client, wanted)
    ranked = tuple(one for mix in found for one in priorities(wanted, mix, worth))
    return ClientAdvice(needs, tuple(mixes), ranked, tuple(_closings(client, found, products, day)))


def _mixes(client: Client, farm: Farm, needs: list[Need], products: ProductList) -> Iterator[ProductMix | NoMix]:
    """Yield what stands in the way of meeting a farm's needs, and then the mix that meets the others."""
    needs = [need for need in needs if need.amount > 0]
    areas = {zone.id: zone.area_ha for zone in farm.zones}
    land_uses = {zone.id: zone.land_use for zone in farm.zones}
    region = f"{client.country}-{client.subdivision}".rstrip("-")
    fineness = {one.id: _fineness(one, region) for one in products.products.values()}
    found = available_of(products, client.country)
    while needs:
        mix = product_mix(farm.id, needs, areas, products, land_uses, effectiveness=fineness, available=found)
        yield mix
        if isinstance(mix, ProductMix):
            return
        blocked = set(mix.in_the_way)
        needs = [need for need in needs if (need.zone, need.input) not in blocked]


def available_of(products: ProductList, country: str) -> dict[tuple[str, Input], float]:
    """Return the share of what manures hold that a crop finds in its year [-], by product and nutrient.

    Args:
        products: the products of the practice.
        country: ISO 3166-1 code. Where no source says so for it, there is no share: the whole counts.
    """
    asked = [(one, what) for one in products.products.values() if is_organic(one.material_class) for what in Input]
    shares = {(one.id, what): manure_share(one.material_class, what, country) for one, what in asked}
    return {key: share.value for key, share in shares.items() if share is not None}


def _fineness(product: Product, region: str) -> float:
    """Return the share of a lime's neutralising value that its grain sizes let work by the scheme of a region [-]."""
    if product.kind is not ProductKind.LIME or not product.neutralising_percent:
        return 1.0
    dry = 1 - product.moisture_percent / 100
    return effectiveness_of(product, region) / (product.neutralising_percent / 100 * dry)


def _values(client: Client, needs: Sequence[Need]) -> Mapping[tuple[str, str, Input], float]:
    """Return what a response is worth by (farm, zone, input) [currency/ha], where the practice says so."""
    zones = {(zone.farm, zone.id): zone for farm in client.farms for zone in farm.zones}
    found: dict[tuple[str, str, Input], float] = {}
    for need in needs:
        zone = zones[need.farm, need.zone]
        for value in client.practice.response_values:
            if value.input == need.input and (not value.land_uses or zone.land_use in value.land_uses):
                found.setdefault((need.farm, need.zone, need.input), value.per_ha)
    return found


def _closings(client: Client, mixes: Sequence[ProductMix], products: ProductList, day: date) -> Iterator[Closing]:
    """Yield what each spreading of the mixes does to sampling, once a zone and input that the product is for."""
    zones = {(zone.farm, zone.id): zone for farm in client.farms for zone in farm.zones}
    for mix in mixes:
        for spreading in mix.spreadings:
            product = products.products[spreading.product]
            closing = closing_of(client, zones[spreading.farm, spreading.zone], product, day)
            if closing is not None:
                yield closing


def closing_of(client: Client, zone: Zone, product: Product, day: date) -> Closing | None:
    """Return what spreading a product does to the next sampling of a zone, and which comes first.

    The spreading is tried on the day of the advice. Where that takes the preferred day of a window, sampling comes
    first and the spreading follows on the day after it; the next window is the one after that sampling.

    Args:
        client: the client.
        zone: the zone.
        product: what is spread.
        day: day of the advice.

    Returns:
        None where the zone has no task, or the class of the product closes no day for it.
    """
    before = _windows(client, zone, day)
    after = _windows(_with(client, zone, product, day), zone, day)
    taken = {
        one.key.protocol: one.preferred
        for one, other in zip(before, after, strict=True)
        if one.preferred is not None and not any(span.first <= one.preferred <= span.last for span in other.open)
    }
    spread_on = max(taken.values()) + _DAY if taken else day
    followed = _with(client, zone, product, spread_on, taken)
    until = _closed_until(followed, zone)
    if until is None:
        return None
    after = _windows(followed, zone, spread_on)
    opens = [span for window in after for span in window.open]
    return Closing(
        farm=zone.farm,
        zone=zone.id,
        product=product.id,
        spread_from=spread_on,
        spread_to=spread_on,
        closes_until=until,
        sample_first=bool(taken),
        window_first=min((span.first for span in opens), default=None),
        window_last=max((span.last for span in opens), default=None),
    )


def _with(client: Client, zone: Zone, product: Product, day: date, sampled: Mapping[str, date] | None = None) -> Client:
    """Return the client as if a product were spread on a zone on a day, and protocols sampled there on days before."""
    planned = Application(
        farm=zone.farm,
        zones=(zone.id,),
        material_class=product.material_class,
        material=product.name,
        first_day=day,
        last_day=day,
        standing=Standing.PLANNED,
        rate_kg_ha=None,
        place=_ADVICE,
    )
    notes = tuple(
        FieldNote(on, zone.farm, zone.id, protocol, layer.top_cm, layer.bottom_cm, layer.cores, "", "", "", _ADVICE)
        for protocol, on in (sampled or {}).items()
        for layer in client.protocols[protocol].layers
    )
    return replace(client, applications=(*client.applications, planned), field_notes=(*client.field_notes, *notes))


def _tasks(client: Client, zone: Zone) -> list[Task]:
    """Return the tasks of a zone."""
    return [task for task in tasks_of(client) if (task.key.farm, task.key.zone) == (zone.farm, zone.id)]


def _windows(client: Client, zone: Zone, day: date) -> list[Window]:
    """Return the windows of a zone's tasks."""
    return [window_of(task, day) for task in _tasks(client, zone)]


def _closed_until(client: Client, zone: Zone) -> date | None:
    """Return the last day on which the spreading of the advice keeps a zone from being sampled; None where none."""
    records = (record for task in _tasks(client, zone) for record in task.applications)
    found = (closes_until(record) for record in records if record.application.place == _ADVICE)
    return max((day for day in found if day is not None), default=None)
