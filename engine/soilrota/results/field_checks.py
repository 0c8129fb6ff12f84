"""What was really taken, held against what was planned: cores, depths, soil, bags. Days are checked by `timing.taken`.

House defaults, where the rules leave it open:

- A layer that another depth of the same day cuts is not said to be missing as well: the other depth is.
- Soil that is not written down is not held against the crew; wet soil always is, dry soil only where moist is wanted.
  A survey that prefers dry soil takes moist soil without a word: the probe goes to its depth and cores stay whole.
- A bag id is compared as people mean it: case, blanks and kind of hyphen do not matter.
- An id that was never issued counts from the first season on for which this task, or else this client, was issued any
  bag; samples before it carry whatever was in use then. A task that no bag was issued for is only asked about ids that
  look like issued ones.
- What was planned for a zone that is gone, and that another zone follows, nobody can say any more: nothing is said.
- A bag that was issued for another season of the same zone, protocol and layer is the right bag.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from soilrota.bag_ids import is_bag_id, nearest_issued, normalised
from soilrota.guidelines.sample_findings import few_cores_share, weight_of
from soilrota.model.client import Client, Zone
from soilrota.model.field_pack import Bag
from soilrota.model.findings import Fact, SampleFinding, SampleKey, SampleRule
from soilrota.model.practice import MonthDay
from soilrota.model.protocol import Layer, Protocol
from soilrota.model.samples import FieldNote

#: (farm, zone, protocol).
_Task = tuple[str, str, str]
#: What an issued id looks like, right or wrong: a letter and at least three digits, with something behind them.
_LIKE_AN_ID = re.compile(r"[A-Z0-9][0-9OIL]{3,}-?[0-9A-Z*]?")


def check_notes(client: Client, issued: Sequence[Bag]) -> tuple[SampleFinding, ...]:
    """Return what is odd about the samples of a client, in the order of the field notes.

    Args:
        client: the checked client.
        issued: every bag that was ever issued to it.
    """
    zones = {(farm.id, zone.id): zone for farm in client.farms for zone in farm.zones}
    former = {(farm, word) for (farm, _), zone in zones.items() for one in zone.follows for word in one.zones}
    gone = former - set(zones)
    bags = _Bags.of(client, issued)
    days = _days(client.field_notes)
    findings: list[SampleFinding] = []
    for note in client.field_notes:
        protocol = client.protocols.get(note.protocol)
        planned = _planned(zones.get((note.farm, note.zone)), protocol)
        if not planned and (note.farm, note.zone) not in gone:
            findings.append(_finding(note, SampleRule.NOT_PLANNED))
        if protocol is not None:
            findings += _sample(note, protocol)
            if planned and note is days[note.farm, note.zone, note.protocol, note.day][0]:
                findings += _missing(days[note.farm, note.zone, note.protocol, note.day], protocol)
        findings += bags.check(note)
    return tuple(findings)


def _planned(zone: Zone | None, protocol: Protocol | None) -> bool:
    """Return whether the zone is sampled under the protocol."""
    return zone is not None and protocol is not None and protocol.id in zone.protocols


def _days(notes: Iterable[FieldNote]) -> dict[tuple[str, str, str, date], list[FieldNote]]:
    """Return the notes of each task and day."""
    found: defaultdict[tuple[str, str, str, date], list[FieldNote]] = defaultdict(list)
    for note in notes:
        found[note.farm, note.zone, note.protocol, note.day].append(note)
    return dict(found)


def _finding(
    note: FieldNote,
    rule: SampleRule,
    facts: Mapping[str, Fact] | None = None,
    case: str = "",
    depth: tuple[float, float] | None = None,
) -> SampleFinding:
    """Return a finding about the sample of a note, or about another depth [cm] of its day."""
    top_cm, bottom_cm = depth or (note.top_cm, note.bottom_cm)
    sample = SampleKey(note.farm, note.zone, note.protocol, top_cm, bottom_cm, note.day)
    return SampleFinding(sample, rule, weight_of(rule, case), facts or {}, note.place)


def _sample(note: FieldNote, protocol: Protocol) -> Iterator[SampleFinding]:
    """Yield what is odd about one sample by itself: its depth, its cores, its soil."""
    layer = next((layer for layer in protocol.layers if _depth(layer) == (note.top_cm, note.bottom_cm)), None)
    if layer is None:
        layers = tuple(f"{layer.top_cm:g}-{layer.bottom_cm:g}" for layer in protocol.layers)
        facts: dict[str, Fact] = {"top_cm": note.top_cm, "bottom_cm": note.bottom_cm, "layers": layers}
        yield _finding(note, SampleRule.OTHER_DEPTH, facts)
    elif note.cores is None:
        yield _finding(note, SampleRule.CORES_NOT_WRITTEN, {"least": layer.cores})
    elif note.cores < layer.cores:
        case = "far-too-few" if note.cores < few_cores_share() * layer.cores else ""
        yield _finding(note, SampleRule.TOO_FEW_CORES, {"cores": note.cores, "least": layer.cores}, case)
    if note.soil_state == "wet" or (note.soil_state == "dry" and protocol.soil_state == "moist"):
        wanted = {"state": note.soil_state, "wanted": protocol.soil_state}
        yield _finding(note, SampleRule.OTHER_MOISTURE, wanted)


def _depth(layer: Layer) -> tuple[float, float]:
    """Return top and bottom of a layer [cm]."""
    return layer.top_cm, layer.bottom_cm


def _missing(taken: Sequence[FieldNote], protocol: Protocol) -> Iterator[SampleFinding]:
    """Yield the layers of a protocol of which nothing was taken on a day."""
    for layer in protocol.layers:
        if not any(note.top_cm < layer.bottom_cm and note.bottom_cm > layer.top_cm for note in taken):
            facts = {"top_cm": layer.top_cm, "bottom_cm": layer.bottom_cm}
            yield _finding(taken[0], SampleRule.LAYER_MISSING, facts, depth=_depth(layer))


@dataclass(frozen=True, slots=True)
class _Bags:
    """The bags that were issued to a client, and those that its notes name.

    Attributes:
        by_id: issued bags by id.
        since: the first day from which each task was issued bags.
        noted: the notes that name each bag, in their order.
    """

    by_id: Mapping[str, Bag]
    since: Mapping[_Task, date]
    noted: Mapping[str, Sequence[FieldNote]]

    @classmethod
    def of(cls, client: Client, issued: Sequence[Bag]) -> _Bags:
        """Return what the checks of bags look at."""
        noted: defaultdict[str, list[FieldNote]] = defaultdict(list)
        for note in client.field_notes:
            if note.bag:
                noted[normalised(note.bag)].append(note)
        since: dict[_Task, date] = {}
        for bag in issued:
            task, first = (bag.farm, bag.zone, bag.protocol), _season_begins(client, bag)
            since[task] = min(first, since.get(task, first))
        return cls({normalised(bag.id): bag for bag in issued}, since, dict(noted))

    def check(self, note: FieldNote) -> Iterator[SampleFinding]:
        """Yield what is odd about the bag of a note."""
        if not note.bag:
            return
        bag = normalised(note.bag)
        yield from self._twice(note, self.noted[bag])
        if bag in self.by_id:
            yield from _issued_for_it(note, self.by_id[bag])
        elif self._held(note, bag):
            if is_bag_id(bag):
                yield _finding(note, SampleRule.BAG_UNKNOWN, {"bag": note.bag})
            else:
                nearest = nearest_issued(bag, self.by_id)
                rule = SampleRule.BAG_CHECK if nearest or _LIKE_AN_ID.fullmatch(bag) else SampleRule.BAG_UNKNOWN
                facts: dict[str, Fact] = {"bag": note.bag}
                yield _finding(note, rule, {**facts, "nearest": nearest} if nearest else facts)

    def _held(self, note: FieldNote, bag: str) -> bool:
        """Return whether an id that was not issued is held against the crew."""
        own = self.since.get((note.farm, note.zone, note.protocol))
        if own is not None:
            return note.day >= own
        looks_issued = _LIKE_AN_ID.fullmatch(bag) is not None
        return looks_issued and bool(self.since) and note.day >= min(self.since.values())

    @staticmethod
    def _twice(note: FieldNote, noted: Sequence[FieldNote]) -> Iterator[SampleFinding]:
        """Yield that another row names the same bag; of several the first is named."""
        others = [one for one in noted if one is not note]
        if not others:
            return
        elsewhere = [one for one in others if _soil(one) != _soil(note)]
        other = (elsewhere or others)[0]
        facts: dict[str, Fact] = {
            "bag": note.bag,
            "other": f"{other.farm}/{other.zone}",
            "other_top_cm": other.top_cm,
            "other_bottom_cm": other.bottom_cm,
            "other_day": other.day,
            "other_line": other.place.line,
        }
        yield _finding(note, SampleRule.BAG_TWICE, facts, "" if elsewhere else "same-soil")


def _soil(note: FieldNote) -> tuple[object, ...]:
    """Return which soil a bag holds, whatever protocol asked for it."""
    return note.farm, note.zone, note.top_cm, note.bottom_cm, note.day


def _issued_for_it(note: FieldNote, bag: Bag) -> Iterator[SampleFinding]:
    """Yield that a bag holds something else than it was issued for; another depth than planned is said elsewhere."""
    same_ground = (bag.farm, bag.zone) == (note.farm, note.zone)
    same_layer = (bag.top_cm, bag.bottom_cm) == (note.top_cm, note.bottom_cm)
    overlaps = bag.top_cm < note.bottom_cm and bag.bottom_cm > note.top_cm
    if same_ground and (same_layer or overlaps) and bag.protocol == note.protocol:
        return
    facts: dict[str, Fact] = {
        "bag": note.bag,
        "issued": f"{bag.farm}/{bag.zone}",
        "issued_protocol": bag.protocol,
        "issued_top_cm": bag.top_cm,
        "issued_bottom_cm": bag.bottom_cm,
    }
    yield _finding(note, SampleRule.BAG_OTHER, facts, "same-soil" if same_ground and same_layer else "")


def _season_begins(client: Client, bag: Bag) -> date:
    """Return the first day of the season that a bag was issued for; of its year where the season is no longer there."""
    year = int(bag.season[:4])
    protocol = client.protocols.get(bag.protocol)
    season = client.practice.seasons.get(protocol.season) if protocol else None
    spans = season.spans.get(client.hemisphere, ()) if season else ()
    first = min((span.first for span in spans), default=MonthDay(1, 1))
    return date(year, first.month, min(first.day, 28))
