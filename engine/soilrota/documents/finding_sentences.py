"""Findings about samples as sentences: one a finding, dates and numbers in the client's form."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from datetime import date
from typing import Any

from soilrota.documents.dates import counted, joined, long_day, span_words
from soilrota.documents.protocols import depth_words
from soilrota.documents.words import material_words
from soilrota.language import marked, say, say_as, say_count
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


def finding_sentence(finding: SampleFinding, client: Client) -> str:
    """Return one finding as a sentence that says which sample it is about.

    Args:
        finding: the finding.
        client: the client, for names and language.
    """
    sample, language = finding.sample, client.language
    protocol = client.protocols.get(sample.protocol)
    several = protocol is not None and len(protocol.layers) > 1
    day, words = long_day(sample.day, language), _SENTENCES[finding.rule](_Facts(finding, client))
    if several and finding.rule not in _NAMES_NO_LAYER:
        depth = depth_words(sample.top_cm, sample.bottom_cm, language)
        about = say("About the sample of {day}, {depth}: {finding}", day=day, depth=depth, finding=words)
    else:
        about = say("About the sample of {day}: {finding}", day=day, finding=words)
    unusable = say("The result is not used for advice.") if finding.weight is Weight.UNUSABLE else ""
    return f"{about} {unusable}".rstrip()


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
    def months(self) -> str:
        """How long to wait after it."""
        return counted(int(self.facts["months"]), "month", "months")


def _too_few(facts: _Facts) -> str:
    return say_count(
        "{count} core was taken; the protocol asks for at least {least}.",
        "{count} cores were taken; the protocol asks for at least {least}.",
        int(facts.facts["cores"]),
        least=facts.facts["least"],
    )


def _not_written(facts: _Facts) -> str:
    least = counted(int(facts.facts["least"]), "core", "cores")
    return say("the number of cores was not written down; the protocol asks for at least {least}.", least=least)


def _other_depth(facts: _Facts) -> str:
    layers = [
        depth_words(float(top), float(bottom), facts.language)
        for top, bottom in (str(layer).split("-") for layer in facts.facts["layers"])
    ]
    if not layers:
        return say(
            "it was taken from {depth}; the protocol has no layers, and other depths do not compare.",
            depth=facts.depth(),
        )
    return say(
        "it was taken from {depth}; the protocol asks for {layers}, and other depths do not compare.",
        depth=facts.depth(),
        layers=joined(layers),
    )


def _layer_missing(facts: _Facts) -> str:
    return say("the layer of {depth} was not taken on that day.", depth=facts.depth())


def _outside_season(facts: _Facts) -> str:
    season = span_words(Span(facts.facts["first"], facts.facts["last"]), facts.language)
    days = counted(int(facts.facts["days"]), "day", "days")
    if facts.finding.sample.day < facts.facts["first"]:
        return say(
            "it was taken {days} before the season began ({season}), so a trend with it mixes seasons.",
            days=days,
            season=season,
        )
    return say(
        "it was taken {days} after the season had ended ({season}), so a trend with it mixes seasons.",
        days=days,
        season=season,
    )


def _inside_gap(facts: _Facts) -> str:
    first, last = facts.facts.get("first_day"), facts.facts.get("last_day")
    what, months = facts.what, facts.months
    if first is None and last is None:
        return say(
            "the date of a spreading of {what} is not known, so nobody can say that the waiting time of {months} "
            "had passed.",
            what=what,
            months=months,
        )
    if first is None and last is not None and facts.finding.sample.day < last:
        return say(
            "{what} was spread at the latest on {day}; nobody can say whether that was before the sampling.",
            what=what,
            day=facts.day("last_day"),
        )
    spread = _spread(facts)
    if last is None and facts.finding.weight is not Weight.UNUSABLE:
        return say(
            "{spread}, until a day not known, so nobody can say that the waiting time of {months} had passed.",
            spread=spread,
            months=months,
        )
    if not int(facts.facts["months"]):
        return say("{spread}; on such a day there is no sampling.", spread=spread)
    if "free" not in facts.facts:
        return say("{spread}, and the waiting time of {months} had not passed.", spread=spread, months=months)
    return say(
        "{spread}, and the waiting time of {months} had not passed; the land was free from {day}.",
        spread=spread,
        months=months,
        day=facts.day("free"),
    )


def _spread(facts: _Facts) -> str:
    """Return what was, or was to be, spread, and when."""
    when = _when(facts)
    if facts.facts.get("standing") == "planned":
        return say(
            "{what} was to be spread {when} and was never recorded as done, so it counts", what=facts.what, when=when
        )
    return say("{what} was spread {when}", what=facts.what, when=when)


def _when(facts: _Facts) -> str:
    """Return when it was, or was to be, spread."""
    first, last = facts.facts.get("first_day"), facts.facts.get("last_day")
    if first is None:
        return say_as("spread", "at the latest on {day}", day=facts.day("last_day"))
    if last is None:
        return say_as("spread", "from {day} on", day=facts.day("first_day"))
    words = span_words(Span(first, last), facts.language)
    if first == last:
        return say_as("spread", "on {day}", day=words)
    return say_as("spread", "from {days}", days=words)


def _closed(facts: _Facts) -> str:
    return say(
        "the day was one on which nobody should be on the land. Reason given: {reason}.",
        reason=str(facts.facts["reason"]).rstrip("."),
    )


def _other_moisture(facts: _Facts) -> str:
    return say(_SOIL[str(facts.facts["state"]), str(facts.facts["wanted"])])


#: How the soil was, and how the protocol wants it.
_SOIL = {
    ("wet", "moist"): marked(
        "the soil was wet; the protocol wants it moist, and cores of wet soil are pressed together and smear from one "
        "to the next."
    ),
    ("wet", "dry"): marked(
        "the soil was wet; the protocol wants it dry, and cores of wet soil are pressed together and smear from one "
        "to the next."
    ),
    ("dry", "moist"): marked(
        "the soil was dry; the protocol wants it moist, and in dry soil the probe stops short of the depth."
    ),
}


def _not_planned(facts: _Facts) -> str:
    return say(
        "the zone is not sampled under the protocol {protocol}, so no task asked for it.",
        protocol=facts.protocol(facts.finding.sample.protocol),
    )


def _bag_twice(facts: _Facts) -> str:
    bag, sample = facts.facts["bag"], facts.finding.sample
    this = (f"{sample.farm}/{sample.zone}", sample.top_cm, sample.bottom_cm, sample.day)
    if this == tuple(facts.facts[name] for name in ("other", "other_top_cm", "other_bottom_cm", "other_day")):
        return say("the field notes name its bag {bag} in another row too.", bag=bag)
    return say(
        "its bag {bag} stands at the sample of {zone}, {depth}, of {day} too, so nobody can say whose value "
        "comes back.",
        bag=bag,
        zone=facts.zone("other"),
        depth=facts.depth("other_"),
        day=facts.day("other_day"),
    )


def _bag_check(facts: _Facts) -> str:
    bag, nearest = facts.facts["bag"], [str(bag) for bag in facts.facts.get("nearest", ())]
    if not nearest:
        return say(
            "its bag id {bag} was misread or miswritten, because its check character does not fit.",
            bag=bag,
        )
    return say(
        "its bag id {bag} was misread or miswritten, because its check character does not fit; {bags} may be meant.",
        bag=bag,
        bags=_either(nearest),
    )


def _either(bags: list[str]) -> str:
    """Return bags of which one is meant.

    >>> _either(["A0000-E"]), _either(["A0000-E", "A0001-C", "A0002-A"])
    ('A0000-E', 'A0000-E, A0001-C or A0002-A')
    """
    if len(bags) == 1:
        return bags[0]
    return say_as("bags", "{before} or {last}", before=", ".join(bags[:-1]), last=bags[-1])


def _bag_unknown(facts: _Facts) -> str:
    return say("its bag id {bag} was never issued for {client}.", bag=facts.facts["bag"], client=facts.client.name)


def _bag_other(facts: _Facts) -> str:
    return say(
        "its bag {bag} was issued for {zone}, {depth} ({protocol}).",
        bag=facts.facts["bag"],
        zone=facts.zone("issued"),
        depth=facts.depth("issued_"),
        protocol=facts.protocol(str(facts.facts["issued_protocol"])),
    )


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
