"""What stands in a finding about results, as it is read: values, zones, samples, odds; and what people call things."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from babel.numbers import format_decimal

from soilrota.documents.dates import locale_of, long_day, number, with_unit
from soilrota.documents.protocols import depth_words
from soilrota.language import marked, say
from soilrota.model.client import Client
from soilrota.model.result_findings import ResultFinding
from soilrota.quantities import method, split_code

#: How a figure is said of which only one end is certain, and a value beyond the laboratory's range.
_BOUNDS = {"least": marked("at least {value}"), "most": marked("at most {value}")}
_RANGES = {"<": marked("less than {value}"), ">": marked("more than {value}")}
_MOST_DECIMALS = 4
_FULL_STOPS = ".!?"


@dataclass(frozen=True, slots=True)
class Names:
    """What people call things: zones by `farm/zone`, people and check materials by id."""

    zones: Mapping[str, str] = field(default_factory=dict)
    people: Mapping[str, str] = field(default_factory=dict)
    materials: Mapping[str, str] = field(default_factory=dict)

    @classmethod
    def of(cls, client: Client) -> Names:
        """Return the names that a client and its practice use, the farm beside the zone where there are several."""
        several = len(client.farms) > 1
        return cls(
            zones={
                f"{farm.id}/{zone.id}": f"{zone.name}, {farm.name}" if several else zone.name
                for farm in client.farms
                for zone in farm.zones
            },
            people={person.id: person.name for person in client.practice.people.values()},
            materials={material.id: material.name for material in client.practice.check_materials.values()},
        )


class FindingFacts:
    """The facts of a finding, in the client's form."""

    def __init__(self, finding: ResultFinding, language: str, names: Names) -> None:
        """Take a finding, the language tag of the client, and what people call things."""
        self.finding = finding
        self.facts: dict[str, Any] = dict(finding.facts)
        self.language = language
        self.names = names

    def about(self, finding: str) -> str:
        """Return what was found as a sentence that says of which sample: zone, layer, day, bag."""
        key = self.finding.key
        facts = {
            "zone": self.zone(f"{key.farm}/{key.zone}"),
            "depth": depth_words(key.top_cm, key.bottom_cm, self.language),
            "day": long_day(key.sampled, self.language),
            "finding": finding,
        }
        if not key.bag:
            return say("About the sample of {zone}, {depth}, of {day}: {finding}", **facts)
        return say("About the sample of {zone}, {depth}, of {day}, bag {bag}: {finding}", bag=key.bag, **facts)

    @property
    def accepted(self) -> str:
        """What a person said of it; empty where nobody did."""
        word = self.finding.accepted
        if word is None:
            return ""
        stop = "" if word.reason[-1:] in _FULL_STOPS else "."
        person = self.names.people.get(word.by) or as_words(word.by).title()
        return say("Accepted by {person}: {reason}", person=person, reason=f"{word.reason}{stop}")

    def zone(self, name: str) -> str:
        """Return what people call a zone that is named as `farm/zone`."""
        farm, _, zone = name.partition("/")
        return self.names.zones.get(name) or f"{as_words(zone)} ({as_words(farm)})"

    def value(self, name: str, code: str) -> str:
        """Return a fact that is a value of an analysis, with its unit and no decimal of the laboratory lost."""
        text = str(self.facts[name])
        beyond = _RANGES.get(text[:1], "")
        value = float(text[1:] if beyond else text)
        own = -int(Decimal(repr(value)).normalize().as_tuple().exponent)
        amount = self.amount(value, code, min(own, _MOST_DECIMALS))
        return say(beyond, value=amount) if beyond else amount

    def amount(self, value: float, code: str, least_decimals: int = 0) -> str:
        """Return a number with the decimals and the unit of an analysis; pH and an index have none."""
        known = method(*split_code(code))
        unit = known.unit if known else ""
        decimals = max(known.decimals if known else 2, least_decimals)
        pattern = "#,##0." + "0" * decimals if decimals else "#,##0"
        rounded = Decimal(repr(value)).quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_HALF_UP)
        shown = str(format_decimal(rounded, format=pattern, locale=locale_of(self.language)))
        return with_unit(shown, "" if unit in {"pH", "index"} else unit)

    def bounded(self, figure: str) -> str:
        """Return a figure; where only one end of it is certain, with which."""
        bound = _BOUNDS.get(str(self.facts.get("bound", "")), "")
        return say(bound, value=figure) if bound else figure

    def plain(self, name: str, decimals: int) -> str:
        """Return a fact that is a number without a unit."""
        return number(float(self.facts[name]), self.language, decimals)


def as_words(name: str) -> str:
    """Return an id as words.

    >>> as_words("river-flat")
    'river flat'
    """
    return name.replace("-", " ")
