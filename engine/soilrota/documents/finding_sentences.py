"""Findings about samples as sentences: one a finding, dates and numbers in the client's form."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from datetime import date
from typing import Any

from soilrota.documents.dates import counted, joined, long_day, span_words
from soilrota.documents.protocols import depth_words
from soilrota.documents.words import material_words
from soilrota.model.client import Client
from soilrota.model.findings import SampleFinding, SampleRule, Weight
from soilrota.model.windows import Span

#: Rules that speak of the day or of the depth itself; beside the others stands which layer is meant.
_NAMES_NO_LAYER = frozenset(
    {
        SampleRule.OTHER_DEPTH,
        SampleRule.LAYER_MISSING,
        SampleRule.OUTSIDE_SEASON,
        SampleRule.INSIDE_GAP,
        SampleRule.CLOSED_DAY,
        SampleRule.NOT_PLANNED,
    }
)
_NOT_USED = " The result is not used for advice."


def finding_sentence(finding: SampleFinding, client: Client) -> str:
    """Return one finding as a sentence that says which sample it is about.

    Args:
        finding: the finding.
        client: the client, for names and language.
    """
    sample, language = finding.sample, client.language
    protocol = client.protocols.get(sample.protocol)
    several = protocol is not None and len(protocol.layers) > 1
    layer = ""
    if several and finding.rule not in _NAMES_NO_LAYER:
        layer = f", {depth_words(sample.top_cm, sample.bottom_cm, language)}"
    words = _SENTENCES[finding.rule](_Facts(finding, client))
    unusable = _NOT_USED if finding.weight is Weight.UNUSABLE else ""
    return f"About the sample of {long_day(sample.day, language)}{layer}: {words}{unusable}"


def sentences_about(findings: Iterable[SampleFinding], client: Client, days: Collection[date]) -> tuple[str, ...]:
    """Return the findings about samples of some days, the latest day first, each sentence once."""
    chosen = [finding for finding in findings if finding.sample.day in days]
    chosen.sort(key=lambda finding: finding.sample.day, reverse=True)
    return tuple(dict.fromkeys(finding_sentence(finding, client) for finding in chosen))


def stray_sentences(findings: Iterable[SampleFinding], client: Client) -> tuple[str, ...]:
    """Return what is said of the latest sample of each zone that no task asked for, the zone named."""
    latest: dict[tuple[str, str, str], SampleFinding] = {}
    for finding in findings:
        sample = finding.sample
        if finding.rule is SampleRule.NOT_PLANNED:
            key = (sample.farm, sample.zone, sample.protocol)
            latest[key] = max(latest.get(key, finding), finding, key=lambda one: one.sample.day)
    return tuple(
        f"{_zone_name(client, f'{one.sample.farm}/{one.sample.zone}')}. {finding_sentence(one, client)}"
        for one in latest.values()
    )


def _zone_name(client: Client, name: str) -> str:
    """Return what people call a zone that is named as `farm/zone`, with its farm where there are several."""
    for farm in client.farms:
        for zone in farm.zones:
            if f"{farm.id}/{zone.id}" == name:
                return f"{zone.name}, {farm.name}" if len(client.farms) > 1 else zone.name
    return name


class _Facts:
    """The facts of a finding, in the client's form."""

    def __init__(self, finding: SampleFinding, client: Client) -> None:
        self.finding = finding
        self.facts: dict[str, Any] = dict(finding.facts)
        self.client = client
        self.language = client.language

    def day(self, name: str) -> str:
        """Return a fact that is a day, in full."""
        return long_day(self.facts[name], self.language)

    def depth(self, before: str = "") -> str:
        """Return the facts that are a depth."""
        return depth_words(float(self.facts[f"{before}top_cm"]), float(self.facts[f"{before}bottom_cm"]), self.language)

    def zone(self, name: str) -> str:
        """Return a fact that is a zone, as people call it."""
        return _zone_name(self.client, str(self.facts[name]))

    def protocol(self, word: str) -> str:
        """Return what people call a protocol."""
        known = self.client.protocols.get(word)
        return known.name if known else word

    @property
    def what(self) -> str:
        """What was spread."""
        return material_words(str(self.facts["class"]), str(self.facts.get("material", "")))

    @property
    def wait(self) -> str:
        """How long to wait after it."""
        return f"the waiting time of {counted(int(self.facts['months']), 'month', 'months')}"


def _too_few(facts: _Facts) -> str:
    cores = int(facts.facts["cores"])
    were = "was" if cores == 1 else "were"
    return f"{counted(cores, 'core', 'cores')} {were} taken; the protocol asks for at least {facts.facts['least']}."


def _not_written(facts: _Facts) -> str:
    least = counted(int(facts.facts["least"]), "core", "cores")
    return f"the number of cores was not written down; the protocol asks for at least {least}."


def _other_depth(facts: _Facts) -> str:
    layers = [
        depth_words(float(top), float(bottom), facts.language)
        for top, bottom in (str(layer).split("-") for layer in facts.facts["layers"])
    ]
    asks = f"asks for {joined(layers)}" if layers else "has no layers"
    return f"it was taken from {facts.depth()}; the protocol {asks}, and other depths do not compare."


def _layer_missing(facts: _Facts) -> str:
    return f"the layer of {facts.depth()} was not taken on that day."


def _outside_season(facts: _Facts) -> str:
    season = span_words(Span(facts.facts["first"], facts.facts["last"]), facts.language)
    before = facts.finding.sample.day < facts.facts["first"]
    side = "before the season began" if before else "after the season had ended"
    days = counted(int(facts.facts["days"]), "day", "days")
    return f"it was taken {days} {side} ({season}), so a trend with it mixes seasons."


def _inside_gap(facts: _Facts) -> str:
    first, last = facts.facts.get("first_day"), facts.facts.get("last_day")
    if first is None and last is None:
        return f"the date of a spreading of {facts.what} is not known, so nobody can say that {facts.wait} had passed."
    if first is None and last is not None and facts.finding.sample.day < last:
        when = facts.day("last_day")
        return f"{facts.what} was spread at the latest on {when}; nobody can say whether that was before the sampling."
    if last is None and facts.finding.weight is not Weight.UNUSABLE:
        return f"{_spread(facts)}, until a day not known, so nobody can say that {facts.wait} had passed."
    if not int(facts.facts["months"]):
        return f"{_spread(facts)}; on such a day there is no sampling."
    free = f"; the land was free from {facts.day('free')}" if "free" in facts.facts else ""
    return f"{_spread(facts)}, and {facts.wait} had not passed{free}."


def _spread(facts: _Facts) -> str:
    """Return what was, or was to be, spread, and when."""
    first, last = facts.facts.get("first_day"), facts.facts.get("last_day")
    if first is None:
        when = f"at the latest on {facts.day('last_day')}"
    elif last is None:
        when = f"from {facts.day('first_day')} on"
    else:
        words = span_words(Span(first, last), facts.language)
        when = f"on {words}" if first == last else f"from {words}"
    if facts.facts.get("standing") == "planned":
        return f"{facts.what} was to be spread {when} and was never recorded as done, so it counts"
    return f"{facts.what} was spread {when}"


def _closed(facts: _Facts) -> str:
    reason = str(facts.facts["reason"]).rstrip(".")
    return f"the day was one on which nobody should be on the land. Reason given: {reason}."


def _other_moisture(facts: _Facts) -> str:
    state = str(facts.facts["state"])
    return f"the soil was {state}; the protocol wants it {facts.facts['wanted']}, and {_SOIL[state]}."


_SOIL = {
    "wet": "cores of wet soil are pressed together and smear from one to the next",
    "dry": "in dry soil the probe stops short of the depth",
}


def _not_planned(facts: _Facts) -> str:
    protocol = facts.protocol(facts.finding.sample.protocol)
    return f"the zone is not sampled under the protocol {protocol}, so no task asked for it."


def _bag_twice(facts: _Facts) -> str:
    bag, sample = facts.facts["bag"], facts.finding.sample
    this = (f"{sample.farm}/{sample.zone}", sample.top_cm, sample.bottom_cm, sample.day)
    if this == tuple(facts.facts[name] for name in ("other", "other_top_cm", "other_bottom_cm", "other_day")):
        return f"the field notes name its bag {bag} in another row too."
    other = f"{facts.zone('other')}, {facts.depth('other_')}, of {facts.day('other_day')}"
    return f"its bag {bag} stands at the sample of {other} too, so nobody can say whose value comes back."


def _bag_check(facts: _Facts) -> str:
    words = f"its bag id {facts.facts['bag']} was misread or miswritten, because its check character does not fit"
    nearest = [str(bag) for bag in facts.facts.get("nearest", ())]
    return f"{words}; {_either(nearest)} may be meant." if nearest else f"{words}."


def _either(bags: list[str]) -> str:
    """Return bags of which one is meant.

    >>> _either(["A0000-E"]), _either(["A0000-E", "A0001-C", "A0002-A"])
    ('A0000-E', 'A0000-E, A0001-C or A0002-A')
    """
    return " or ".join(filter(None, (", ".join(bags[:-1]), bags[-1])))


def _bag_unknown(facts: _Facts) -> str:
    return f"its bag id {facts.facts['bag']} was never issued for {facts.client.name}."


def _bag_other(facts: _Facts) -> str:
    protocol = facts.protocol(str(facts.facts["issued_protocol"]))
    issued = f"{facts.zone('issued')}, {facts.depth('issued_')} ({protocol})"
    return f"its bag {facts.facts['bag']} was issued for {issued}."


_SENTENCES: dict[SampleRule, Callable[[_Facts], str]] = {
    SampleRule.TOO_FEW_CORES: _too_few,
    SampleRule.CORES_NOT_WRITTEN: _not_written,
    SampleRule.OTHER_DEPTH: _other_depth,
    SampleRule.LAYER_MISSING: _layer_missing,
    SampleRule.OUTSIDE_SEASON: _outside_season,
    SampleRule.INSIDE_GAP: _inside_gap,
    SampleRule.CLOSED_DAY: _closed,
    SampleRule.OTHER_MOISTURE: _other_moisture,
    SampleRule.NOT_PLANNED: _not_planned,
    SampleRule.BAG_TWICE: _bag_twice,
    SampleRule.BAG_CHECK: _bag_check,
    SampleRule.BAG_UNKNOWN: _bag_unknown,
    SampleRule.BAG_OTHER: _bag_other,
}
