"""What a farm report is made of: the client's farm with everything that was judged, found, advised and signed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from soilrota.documents.maps import zone_letters
from soilrota.model.advice import Closing, Need, NoMix, NoNeed, Priority, ProductMix
from soilrota.model.client import Client, Farm, Zone
from soilrota.model.findings import SampleFinding, Weight
from soilrota.model.intake import MissingBag
from soilrota.model.judgement import FarmSpread, Rating, Unrated, ZoneJudgement
from soilrota.model.products import ProductList
from soilrota.model.result_findings import ResultFinding
from soilrota.model.results import Result
from soilrota.model.signing import SignState
from soilrota.model.windows import TaskKey, Window


@dataclass(frozen=True, slots=True)
class ReportGrounds:
    """What the reports of a client rest on.

    Attributes:
        client: the client.
        judged: what is judged of its zones, a protocol each.
        spreads: what means over a farm would hide.
        samples: what was found about samples.
        results: what was found about results.
        windows: the next sampling of each task.
        missing: bags that have not come back.
        sign: whether the reports are signed.
        set_names: printed names of guideline sets by id.
        needs: how much of what each zone needs, or why nothing can be advised; empty where nobody reckoned it.
        mixes: what to buy and where to spread it, a farm each; empty likewise.
        priorities: what each action is worth; empty likewise.
        closings: what following the advice does to sampling; empty likewise.
        products: names and currency of what a mix buys; None where the practice lists none.
    """

    client: Client
    judged: tuple[ZoneJudgement, ...]
    spreads: tuple[FarmSpread, ...] = ()
    samples: tuple[SampleFinding, ...] = ()
    results: tuple[ResultFinding, ...] = ()
    windows: Mapping[TaskKey, Window] = field(default_factory=dict)
    missing: tuple[MissingBag, ...] = ()
    sign: SignState = field(default_factory=lambda: SignState(None))
    set_names: Mapping[str, str] = field(default_factory=dict)
    needs: Sequence[Need | NoNeed] = ()
    mixes: Sequence[ProductMix | NoMix] = ()
    priorities: Sequence[Priority] = ()
    closings: Sequence[Closing] = ()
    products: ProductList | None = None


def all_judged(judged: ZoneJudgement) -> tuple[Rating | Unrated, ...]:
    """Return what was rated and what was not, of one zone under one protocol."""
    return (*judged.ratings, *judged.unrated)


class FarmGrounds:
    """The grounds of one farm, with the letters of its zones and the numbered list of sources."""

    def __init__(self, grounds: ReportGrounds, farm: Farm) -> None:
        """Take the grounds of the client and one of its farms."""
        self.all = grounds
        self.client = grounds.client
        self.language = grounds.client.language
        self.farm = farm
        self.judged = tuple(one for one in grounds.judged if one.farm == farm.id)
        self.letters = dict(zip((zone.id for zone in farm.zones), zone_letters(len(farm.zones)), strict=True))
        self.zones = {zone.id: zone for zone in farm.zones}
        self.sources: list[str] = []

    def cite(self, source: str) -> int:
        """Return the number of a source, adding it to the list where it is new."""
        if source not in self.sources:
            self.sources.append(source)
        return self.sources.index(source) + 1

    def of_zone(self, zone: str) -> tuple[ZoneJudgement, ...]:
        """Return what is judged of one zone."""
        return tuple(one for one in self.judged if one.zone == zone)

    def named(self, zone: str) -> str:
        """Return letter and name of a zone."""
        return f"{self.letters[zone]} {self.zones[zone].name}"

    def needs_of(self, zone: Zone) -> list[Need | NoNeed]:
        """Return what a zone needs, and what nothing can be advised of."""
        return [one for one in self.all.needs if (one.farm, one.zone) == (self.farm.id, zone.id)]

    def product_name(self, product: str) -> str:
        """Return what a product is called; its id where the practice does not list it."""
        listed = self.all.products.products if self.all.products else {}
        return listed[product].name if product in listed else product

    def about_results(self) -> tuple[ResultFinding, ...]:
        """Return what was found about the farm's results."""
        return tuple(one for one in self.all.results if one.key.farm == self.farm.id)

    def about_samples(self) -> tuple[SampleFinding, ...]:
        """Return what was found about the farm's samples."""
        return tuple(one for one in self.all.samples if one.sample.farm == self.farm.id)

    def is_doubted(self, result: Result) -> bool:
        """Return whether something speaks against a result that nobody has accepted."""
        return any(one.doubts and one.speaks_of(result) for one in self.about_results()) or any(
            finding.weight is not Weight.NOTE
            and (finding.sample.zone, finding.sample.day) == (result.zone, result.sampled)
            and finding.sample.top_cm < result.bottom_cm
            and finding.sample.bottom_cm > result.top_cm
            for finding in self.about_samples()
        )
