"""A summary of earlier results: the last value beside its target, and a small trend of what compares."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from soilrota.documents.dates import digits, joined, long_day, number
from soilrota.documents.protocols import depth_words
from soilrota.documents.trends import TrendPoint, trend
from soilrota.language import marked, marked_as, say, say_as
from soilrota.model.client import Client, Forebear, Zone
from soilrota.model.findings import SampleFinding, SampleKey, Weight
from soilrota.model.result_findings import ResultFinding
from soilrota.model.results import Result, Target
from soilrota.problems import Place
from soilrota.quantities import analysis_name, format_value

_ORDER_UNKNOWN = 10_000
_NOT_USED = marked("Not used for advice, see below.")
_IN_DOUBT = marked("In doubt, see below.")
#: Where a value stands against its target.
_SIDES = {
    "below": marked_as("target", "below"),
    "above": marked_as("target", "above"),
    "in range": marked_as("target", "in range"),
}
#: What became of a zone, by how its series was cut.
_BEFORE = {
    "redrawn": marked("before the zone was redrawn"),
    "split": marked("before the zone was split"),
    "merged": marked("before the zone was merged"),
}
_BEFORE_DAY = {
    "redrawn": marked("before the zone was redrawn on {day}"),
    "split": marked("before the zone was split on {day}"),
    "merged": marked("before the zone was merged on {day}"),
}
_CUT = {
    "redrawn": marked("Zone redrawn on {day}: not comparable with before."),
    "split": marked("Zone split on {day}: not comparable with before."),
    "merged": marked("Zone merged on {day}: not comparable with before."),
}
#: Upper and lower end of the layer [cm], analyte.
_Series = tuple[float, float, str]


@dataclass(frozen=True, slots=True)
class ResultRow:
    """One analysis of one layer.

    Attributes:
        name: analysis, with its method.
        depth: layer in words.
        value: last value with its unit.
        taken: day of sampling.
        target: target in words; empty without one.
        against: where the value stands against the target, in words; empty without one.
        source: number of the target's source in the list of sources; 0 without one.
        trend: small trend as SVG; empty with fewer than two samplings.
        note: what breaks the trend, whether the value is in doubt or kept out of advice; empty when nothing is to be
            said.
    """

    name: str
    depth: str
    value: str
    taken: str
    target: str
    against: str
    source: int
    trend: str
    note: str


def last_results(client: Client, zone: Zone, protocol: str) -> tuple[Result, ...]:
    """Return the last result of each analysis of each layer of a zone under a protocol: those that rows show."""
    return tuple(max(some, key=_when) for some in _by_series(client, zone, protocol).values())


def result_rows(  # noqa: PLR0917  # a zone's results, and what was found of them
    client: Client,
    zone: Zone,
    protocol: str,
    sources: list[str],
    findings: Iterable[SampleFinding] = (),
    doubts: Sequence[ResultFinding] = (),
) -> tuple[ResultRow, ...]:
    """Return the summary of a zone under a protocol.

    Args:
        client: the client.
        zone: the zone.
        protocol: id of the protocol.
        sources: sources of targets; new ones are added.
        findings: about the samples of this zone under this protocol.
        doubts: about their results.
    """
    barred = [finding.sample for finding in findings if finding.weight is Weight.UNUSABLE]
    by_series = _by_series(client, zone, protocol)
    asked = [code.partition(".")[0] for code in client.protocols[protocol].analyses]
    order = {analyte: index for index, analyte in enumerate(dict.fromkeys(asked))}
    keys = sorted(by_series, key=lambda key: (key[0], order.get(key[2], _ORDER_UNKNOWN), key[2]))
    return tuple(_row(client, zone, by_series[key], sources, _Against(barred, doubts)) for key in keys)


def _by_series(client: Client, zone: Zone, protocol: str) -> dict[_Series, list[Result]]:
    """Return the results of a zone under a protocol, by layer and analyte."""
    found: defaultdict[_Series, list[Result]] = defaultdict(list)
    for result in client.results:
        if (result.farm, result.zone, result.protocol) == (zone.farm, zone.id, protocol):
            found[(result.top_cm, result.bottom_cm, result.analyte)].append(result)
    return found


def _when(result: Result) -> tuple[date, date, Place]:
    """Return what results are put in order by."""
    return result.sampled, result.reported, result.place


@dataclass(frozen=True, slots=True)
class _Against:
    """What speaks against results: samples that were taken so that they are of no use, doubts about values."""

    barred: Sequence[SampleKey]
    doubts: Sequence[ResultFinding]

    def note(self, result: Result) -> str:
        """Return what is said beside a result; empty where nothing speaks against it."""
        if any(_of_sample(result, sample) for sample in self.barred):
            return say(_NOT_USED)
        return say(_IN_DOUBT) if any(one.doubts and one.speaks_of(result) for one in self.doubts) else ""

    def may_be_rated(self, result: Result) -> bool:
        """Return whether a result may be held against its target."""
        waits = any(one.bars and one.speaks_of(result) for one in self.doubts)
        return not waits and not any(_of_sample(result, sample) for sample in self.barred)


def _row(client: Client, zone: Zone, results: list[Result], sources: list[str], against: _Against) -> ResultRow:
    """Return one analysis of one layer."""
    series = sorted(results, key=_when)
    latest = list({result.sampled: result for result in series}.values())
    last = latest[-1]
    target = target_of(client.targets, zone, last)
    name = analysis_name(f"{last.analyte}.{last.method}")
    change = _change(zone, last)
    points = [_point(result, last, change) for result in latest]
    low, high = (target.low, target.high) if target else (None, None)
    return ResultRow(
        name=name,
        depth=depth_words(last.top_cm, last.bottom_cm, client.language),
        value=f"{_value(last)} {_unit(last)}".rstrip(),
        taken=long_day(last.sampled, client.language),
        target=target_words(target, client.language),
        against=against_target(last, target) if against.may_be_rated(last) else "",
        source=_source(target, sources),
        trend=trend(points, low, high, name) if len(points) > 1 else "",
        note=" ".join(filter(None, (_break(latest, last), _cut(latest, change, client.language), against.note(last)))),
    )


def _of_sample(result: Result, sample: SampleKey) -> bool:
    """Return whether a result is of a sample: same day, and a depth that the sample has a part of."""
    return result.sampled == sample.day and result.top_cm < sample.bottom_cm and result.bottom_cm > sample.top_cm


def _value(result: Result) -> str:
    """Return a value as the laboratory's method prints it, with `<` or `>` where it lies outside its range."""
    return result.qualifier + digits(format_value(result.analyte, result.method, result.value))


def _unit(result: Result) -> str:
    """Return the unit where it says something."""
    return "" if result.unit in {"pH", "index"} else result.unit


def _change(zone: Zone, last: Result) -> Forebear | None:
    """Return the latest change of the zone before its last result; None where the zone always was as it is."""
    return next((forebear for forebear in zone.follows if forebear.since <= last.sampled), None)


def _point(result: Result, last: Result, change: Forebear | None) -> TrendPoint:
    """Return one point of the trend."""
    words = _value(result)
    if change is not None and result.sampled < change.since:
        return TrendPoint(
            result.sampled,
            result.value,
            is_comparable=False,
            is_censored=bool(result.qualifier),
            words=words,
            why_not=say(_BEFORE[change.how]),
        )
    same = (result.method, result.unit) == (last.method, last.unit)
    return TrendPoint(result.sampled, result.value, same, bool(result.qualifier), words)


def _cut(results: list[Result], change: Forebear | None, language: str) -> str:
    """Return that the trend is cut where the zone was redrawn, split or merged."""
    if change is None or all(result.sampled >= change.since for result in results):
        return ""
    return say(_CUT[change.how], day=long_day(change.since, language))


def before_words(change: Forebear, language: str) -> str:
    """Return that a value is older than a change of its zone."""
    return say(_BEFORE_DAY[change.how], day=long_day(change.since, language))


def _break(results: list[Result], last: Result) -> str:
    """Return what breaks the trend."""
    others = list(dict.fromkeys(result.method for result in results if result.method != last.method))
    if not others:
        return ""
    names = joined(analysis_name(f"{last.analyte}.{method}") for method in others)
    return say("Before, {analyses}: not comparable.", analyses=names)


def target_of(targets: Iterable[Target], zone: Zone, result: Result) -> Target | None:
    """Return the target that holds for a result: same analyte, method, unit and layer; the most particular one."""
    holding = [
        target
        for target in targets
        if (target.analyte, target.method, target.unit) == (result.analyte, result.method, result.unit)
        and (target.top_cm, target.bottom_cm) == (result.top_cm, result.bottom_cm)
        and (not target.zones or f"{zone.farm}/{zone.id}" in target.zones)
        and (not target.land_uses or zone.land_use in target.land_uses)
    ]
    return max(holding, key=lambda target: (bool(target.zones), bool(target.land_uses)), default=None)


def target_words(target: Target | None, language: str) -> str:
    """Return a target in words."""
    if target is None:
        return ""
    low = None if target.low is None else number(target.low, language, 2)
    high = None if target.high is None else number(target.high, language, 2)
    if low is None:
        return say_as("target", "{value} or less", value=high)
    if high is None:
        return say_as("target", "{value} or more", value=low)
    return say_as("range", "{low} to {high}", low=low, high=high)


def against_target(result: Result, target: Target | None) -> str:
    """Return where a value stands against its target, in words; nothing where a censored value leaves it open."""
    side = target_side(result, target)
    return say_as("target", _SIDES[side]) if side else ""


def target_side(result: Result, target: Target | None) -> str:
    """Return `below`, `above` or `in range` of a value's target; nothing where a censored value leaves it open."""
    if target is None:
        return ""
    if target.low is not None and result.value < target.low and result.qualifier != ">":
        return "below"
    if target.high is not None and result.value > target.high and result.qualifier != "<":
        return "above"
    below_range = result.qualifier == "<" and target.low is not None
    above_range = result.qualifier == ">" and target.high is not None
    return "" if below_range or above_range else "in range"


def _source(target: Target | None, sources: list[str]) -> int:
    """Return the number of a target's source, adding it to the list where it is new."""
    if target is None:
        return 0
    if target.source not in sources:
        sources.append(target.source)
    return sources.index(target.source) + 1
