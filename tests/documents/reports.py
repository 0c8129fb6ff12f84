"""Grounds of farm reports from the example book, and clients that make a report hard to set."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import cache

from soilrota.batch.judging import judge_client
from soilrota.documents import ReportGrounds
from soilrota.documents.report_grounds import FarmGrounds
from soilrota.guidelines.choosing import sets_for
from soilrota.model.advice import (
    Cap,
    Closing,
    Input,
    Need,
    NoNeed,
    Priority,
    ProductMix,
    Requirement,
    Signature,
    Spreading,
    Step,
)
from soilrota.model.client import Client
from soilrota.model.findings import Fact
from soilrota.model.guideline import Source, Status
from soilrota.model.judgement import Quantity, Refused, WhyNot, ZoneJudgement
from soilrota.model.products import ProductList
from soilrota.model.result_findings import ResultFinding
from soilrota.model.signing import SignState
from soilrota.results import check_results
from soilrota.timing import check_days
from tests.documents.made import AS_OF, answers, example

#: Example clients that have results.
REPORTED = (
    "anvil-creek",
    "brolga-plains",
    "cobb-hill-dairy",
    "dune-end-sheep",
    "ellery-orchard",
    "farrow-vines",
    "glen-tarn",
    "hazel-rigg",
    "iron-prairie",
)
SIGNED = SignState(
    Signature("anvil-creek", "mara-ellis", "Mara Ellis", "Agronomist", date(2027, 2, 10), "0123456789abcdef" * 4, {})
)
PRODUCTS = ProductList("AUD", 12.0, 300.0, {})
_SOURCE = Source("made", "Somebody", 1999, "Invented for tests", "table 1")


def grounds_of(client: Client) -> ReportGrounds:
    """Return the grounds of a client's reports on the day of the tests."""
    samples = check_days(client)
    judged = judge_client(client, samples)
    findings: tuple[ResultFinding, ...] = tuple(check_results(client))
    tasks, windows = answers(client, AS_OF)
    zones = (zone for farm in client.farms for zone in farm.zones)
    return ReportGrounds(
        client=client,
        judged=judged.zones,
        spreads=judged.spreads,
        samples=samples,
        results=findings,
        windows={task.key: window for task, window in zip(tasks, windows, strict=True)},
        set_names={one.id: one.name for zone in zones for one in sets_for(client, zone)},
    )


@cache
def grounds(name: str) -> ReportGrounds:
    """Return the grounds of an example client."""
    return grounds_of(example(name))


def farm_grounds(name: str, farm: int = 0) -> FarmGrounds:
    """Return the grounds of one farm of an example client, fresh."""
    of_client = grounds(name)
    return FarmGrounds(of_client, of_client.client.farms[farm])


#: Figures of a step that lifts pH.
LIFTED: dict[str, Fact] = {"ph": 4.6, "target": 5.2, "act_below": 5.0, "top_cm": 0.0, "bottom_cm": 10.0, "factor": 2.5}


def a_need(zone: str = "barn", what: Input = Input.LIME, amount: float = 2.5) -> Need:
    """Return a need with a working that adds up to it."""
    steps = (
        Step("lift-topsoil", amount + 0.5, LIFTED, _SOURCE, Status.UNVERIFIED),
        Step("already-applied", -0.5, {"product": "Ground lime", "rate_kg_ha": 550.0, "content_percent": 90.0}),
    )
    return Need(
        farm="home",
        zone=zone,
        input=what,
        amount=amount,
        low=amount - 0.7,
        high=amount + 0.9,
        steps=steps,
        caps=(Cap(8.0, "most-dressings", {"one_dressing": 4.0, "dressings": 2}, _SOURCE),),
        split=(1.5, 1.0),
        cautions=("dust", "stock-off"),
        probability=0.8,
    )


def advised() -> ReportGrounds:
    """Return the grounds of the first example client with advice of every kind."""
    spreadings = (Spreading("home", "barn", "ground-lime", 2800, 11.0, 2100.0),)
    return replace(
        grounds("anvil-creek"),
        needs=(
            a_need(),
            a_need("lane", Input.PHOSPHORUS, 18.4),
            NoNeed("home", "ridge", Input.NITROGEN, Refused(WhyNot.COVARIATE_MISSING, {"covariate": ("crop",)})),
        ),
        mixes=(
            ProductMix(
                "home",
                spreadings,
                {"ground-lime": 31.0},
                2532.0,
                1860.0,
                372.0,
                300.0,
                (Requirement("home", "barn", Input.LIME, 2532.0),),
                2900.0,
                ("fine-lime",),
            ),
        ),
        priorities=(Priority("home", "barn", Input.LIME, 0.8, 180.0, 90.0, 11.0, 594.0, 1),),
        closings=(
            Closing(
                "home",
                "barn",
                "fine-lime",
                date(2027, 4, 1),
                date(2027, 4, 30),
                date(2028, 4, 30),
                sample_first=True,
                window_first=date(2027, 2, 1),
                window_last=date(2027, 3, 31),
            ),
        ),
        products=PRODUCTS,
    )


def shares(judged: ZoneJudgement) -> ZoneJudgement:
    """Return a judgement with cation shares reckoned in its first layer."""
    made = tuple(
        Quantity(code, value, value - 3, value + 3, "%", 0, 10, ())
        for code, value in (
            ("calcium-share", 68.0),
            ("magnesium-share", 17.5),
            ("potassium-share", 5.5),
            ("sodium-share", 7.0),
            ("aluminium-share", 2.0),
        )
    )
    return replace(judged, quantities=(*made, *judged.quantities))


def long_names() -> Client:
    """Return a client of which every name is as long as a name gets."""
    client = example("anvil-creek")
    word = "Oberwesterhuizenfontein Limestone Escarpment "
    farms = tuple(
        replace(
            farm,
            name=f"{word}Station number {number} of the Eastern Holdings",
            locality="at the end of Lower Featherstonehaugh Cemetery Road East Extension",
            zones=tuple(replace(zone, name=f"{word}back paddock {zone.name}") for zone in farm.zones),
        )
        for number, farm in enumerate(client.farms, 1)
    )
    return replace(client, name="The Trustees of the Estate of the late " + word.strip(), farms=farms)


def many_zones(count: int = 40) -> Client:
    """Return a client with so many zones on one farm, most of them with results."""
    client = example("anvil-creek")
    farm = client.farms[0]
    sources = farm.zones
    zones, results = [], []
    for number in range(count):
        source = sources[number % len(sources)]
        zones.append(replace(source, id=f"z{number}", name=f"{source.name} {number + 1}", outline=source.outline))
        results += [
            replace(one, zone=f"z{number}") for one in client.results if (one.farm, one.zone) == (farm.id, source.id)
        ]
    return replace(client, farms=(replace(farm, zones=tuple(zones)),), results=tuple(results), field_notes=())


def one_zone() -> Client:
    """Return a client with one zone alone, drawn on no map."""
    client = example("anvil-creek")
    farm = client.farms[0]
    zone = replace(farm.zones[0], outline=None)
    results = tuple(one for one in client.results if (one.farm, one.zone) == (farm.id, zone.id))
    return replace(client, farms=(replace(farm, zones=(zone,), boundary=None),), results=results, field_notes=())


def no_history() -> Client:
    """Return a client of which only the last results of each zone are there."""
    client = example("anvil-creek")
    last: dict[tuple[str, str, str], date] = {}
    for one in client.results:
        key = (one.farm, one.zone, one.protocol)
        last[key] = max(last.get(key, one.sampled), one.sampled)
    kept = tuple(one for one in client.results if last[one.farm, one.zone, one.protocol] == one.sampled)
    return replace(client, results=kept)


def all_censored() -> Client:
    """Return a client of which the laboratory could tell of every value only that it is less."""
    client = example("anvil-creek")
    return replace(client, results=tuple(replace(one, qualifier="<") for one in client.results))


HARD_CASES = {
    "long names": long_names,
    "forty zones": many_zones,
    "one zone": one_zone,
    "no history": no_history,
    "everything censored": all_censored,
}
