"""Agreement: what a client's file says fits what the zones use and what the practice minds."""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.book.limits import limits
from soilrota.book.parts import ClientParts, Located
from soilrota.language import Figure, phrase
from soilrota.model.results import Result
from soilrota.model.samples import FieldNote
from soilrota.problems import Problem, error, warning


def earlier_samplings_have_a_use(parts: ClientParts) -> Iterator[Problem]:
    """An earlier sampling is of a protocol that its zone uses; another one is of no use."""
    for zone, sampling in parts.last_sampled:
        word = sampling.value.protocol
        if word in parts.protocols and word not in zone.protocols:
            found = phrase(
                "zone {zone} does not use protocol {protocol}, of which an earlier sampling is given",
                zone=zone.id,
                protocol=word,
            )
            mend = phrase("add the protocol to the zone, or take the sampling out")
            expected = phrase("a protocol of the zone")
            yield warning("sampling-without-use", sampling.at("protocol"), found, expected, mend)


def decisions_have_a_task(parts: ClientParts) -> Iterator[Problem]:
    """A decision waits for a protocol that one of its zones uses."""
    zones = parts.zones_by_name()
    for decision in parts.decisions:
        word = decision.value.protocol
        touched = [zones[name] for name in decision.value.zones or zones if name in zones]
        if word in parts.protocols and touched and not any(word in zone.value.protocols for zone in touched):
            found = phrase("no zone of the decision uses protocol {protocol}", protocol=word)
            mend = phrase("name the protocol whose results are needed, or take the decision out")
            yield warning("decision-without-task", decision.at("protocol"), found, phrase("a protocol in use"), mend)


def applications_name_zones(parts: ClientParts) -> Iterator[Problem]:
    """An application without zones holds for the whole farm: said, because it closes every zone."""
    for application in parts.applications:
        if not application.value.zones:
            found = phrase(
                "no zone is named for {material}, so every zone of the farm waits", material=application.value.material
            )
            mend, expected = phrase("name the zones that it touched"), phrase("ids of zones, with blanks between")
            yield warning("no-zone-named", application.at("zones"), found, expected, mend)


def zones_are_uniform(parts: ClientParts) -> Iterator[Problem]:
    """A zone that holds more than one kind of ground is said to: its composite stands for neither."""
    for zone in parts.zones:
        if zone.value.mixed_with:
            found = phrase(
                "zone {zone} is {soil} mixed with {others}",
                zone=zone.value.id,
                soil=zone.value.soil_type,
                others=", ".join(zone.value.mixed_with),
            )
            mend = phrase("split the zone, so that each composite stands for one kind of ground")
            expected = phrase("one soil, land use and position")
            yield warning("zone-mixed", zone.at("mixed_with"), found, expected, mend)


def rates_are_likely(parts: ClientParts) -> Iterator[Problem]:
    """A rate far above any ordinary dressing is more often a slip of unit."""
    for application in parts.applications:
        value = application.value
        most = limits().rate_unlikely_kg_ha.get(value.material_class)
        if most is not None and value.rate_kg_ha is not None and value.rate_kg_ha > most:
            found = phrase(
                "{rate} kg/ha of {material} ({material_class})",
                rate=Figure(f"{value.rate_kg_ha:g}"),
                material=value.material,
                material_class=value.material_class,
            )
            expected = phrase("seldom over {rate} kg/ha", rate=Figure(f"{most:g}"))
            mend = phrase("check the unit: the column is in kilograms a hectare")
            yield warning("rate-unlikely", application.at("rate_kg_ha"), found, expected, mend)


def targets_are_ranges(parts: ClientParts) -> Iterator[Problem]:
    """The low end of a target is not above its high end, and its layer has a depth."""
    for target in parts.targets:
        low, high = target.value.low, target.value.high
        if low is not None and high is not None and low > high:
            found = f"the low end {low:g} is above the high end {high:g}"
            yield error("target-reversed", target.at("low"), found, "low not above high", "swap them or correct one")
        if target.value.bottom_cm <= target.value.top_cm:
            found = f"a layer from {target.value.top_cm:g} to {target.value.bottom_cm:g} cm"
            expected = "a bottom deeper than the top"
            yield error("layer-upside-down", target.at("bottom_cm"), found, expected, "correct one of the depths")


def records_have_a_layer(parts: ClientParts) -> Iterator[Problem]:
    """The layer of a note or a result has a depth."""
    rows: tuple[Located[FieldNote] | Located[Result], ...] = (*parts.field_notes, *parts.results)
    for row in rows:
        if row.value.bottom_cm <= row.value.top_cm:
            found = f"a layer from {row.value.top_cm:g} to {row.value.bottom_cm:g} cm"
            expected = "a bottom deeper than the top"
            yield error("layer-upside-down", row.at("bottom_cm"), found, expected, "correct one of the depths")
