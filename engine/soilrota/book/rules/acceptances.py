"""Accepted findings: who says so, of which sample, of which analyses, and why."""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.book.parts import ClientParts
from soilrota.book.rules.references import unknown
from soilrota.model.result_findings import ResultRule
from soilrota.problems import Problem, error
from soilrota.quantities import all_codes


def people_of_acceptances_exist(parts: ClientParts) -> Iterator[Problem]:
    """A finding is accepted by a person of the practice."""
    people = parts.shared.practice.people
    for acceptance in parts.acceptances:
        if acceptance.value.by not in people:
            yield unknown("unknown-person", acceptance.at("by"), "person", acceptance.value.by, people)


def acceptances_name_analyses(parts: ClientParts) -> Iterator[Problem]:
    """The analyses of an accepted finding stand in the glossary."""
    for acceptance in parts.acceptances:
        for i, code in enumerate(acceptance.value.analyses):
            if code not in all_codes():
                yield unknown("unknown-analysis", acceptance.at("analyses", i), "analysis", code, all_codes())


def acceptances_name_a_sample(parts: ClientParts) -> Iterator[Problem]:
    """An accepted finding names its sample by the bag, or else by zone and day; and that zone exists."""
    names = parts.zone_names()
    for acceptance in parts.acceptances:
        bag, zone, sampled = acceptance.value.bag, acceptance.value.zone, acceptance.value.sampled
        if bag and (zone or sampled):
            found = f"bag {bag} and {'zone' if zone else 'day of sampling'} together"
            place = acceptance.at("zone" if zone else "sampled")
            yield error("sample-named-twice", place, found, "bag, or else zone and sampled", "keep one of the two")
        elif not bag and not (zone and sampled):
            lacks = "sampled" if zone else "zone" if sampled else "bag"
            expected = "bag, or else zone and sampled"
            yield error("sample-not-named", acceptance.at(), f"no {lacks}", expected, f"add {lacks}")
        if zone and zone not in names:
            yield unknown("unknown-zone", acceptance.at("zone"), "zone", zone, names)


def acceptances_say_why(parts: ClientParts) -> Iterator[Problem]:
    """The reason of an accepted finding is printed, so it holds words."""
    for acceptance in parts.acceptances:
        if not acceptance.value.reason:
            mend = "write why the values stand"
            yield error("reason-missing", acceptance.at("reason"), "a reason without words", "a sentence", mend)


def acceptances_can_be_given(parts: ClientParts) -> Iterator[Problem]:
    """A value that no soil has cannot be accepted: the records take none such."""
    for acceptance in parts.acceptances:
        if acceptance.value.rule is ResultRule.HARD_LIMIT:
            found = "a value outside the hard limits accepted"
            mend = "correct the figure, its unit or its method in the row that was set aside, and take this entry out"
            yield error("never-accepted", acceptance.at("rule"), found, "another rule", mend)
