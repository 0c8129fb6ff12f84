"""Protocols: layers that join, enough cores, waiting times that are not shortened."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise

from soilrota.book.limits import limits
from soilrota.book.parts import ClientParts, Located, SharedParts
from soilrota.language import Figure, phrase
from soilrota.model.practice import Gap
from soilrota.model.protocol import Layer, Protocol
from soilrota.problems import Place, Problem, error, warning


def shared_protocols_are_sound(parts: SharedParts) -> Iterator[Problem]:
    """The shared protocols have sound layers, cores and waiting times."""
    yield from _sound(parts.protocols, parts.practice.value.gaps)


def own_protocols_are_sound(parts: ClientParts) -> Iterator[Problem]:
    """The client's own protocols have sound layers, cores and waiting times."""
    yield from _sound(parts.own_protocols, parts.shared.practice.gaps)


def _sound(protocols: Iterable[Located[Protocol]], gaps: Mapping[str, Gap]) -> Iterator[Problem]:
    """Yield what is unsound in the protocols."""
    for protocol in protocols:
        yield from layers_join(protocol)
        yield from cores_are_enough(protocol)
        yield from gaps_are_not_shorter(protocol, gaps)


def _layer_place(protocol: Located[Protocol], layer: Layer, column: str) -> Place:
    """Return the place of a property of a layer; layers are sorted by depth, so it is found by what is written."""
    for i, written in enumerate(protocol.data.get("layers", ())):
        if (written.get("top_cm"), written.get("bottom_cm")) == (layer.top_cm, layer.bottom_cm):
            return protocol.at("layers", i, column)
    return protocol.at("layers")


def layers_join(protocol: Located[Protocol]) -> Iterator[Problem]:
    """Depth layers end below where they start, and join without hole or overlap."""
    layers = protocol.value.layers
    for layer in layers:
        if layer.bottom_cm <= layer.top_cm:
            found = f"a layer from {layer.top_cm:g} to {layer.bottom_cm:g} cm"
            place = _layer_place(protocol, layer, "bottom_cm")
            yield error("layer-upside-down", place, found, "a bottom deeper than the top", "correct one of the depths")
    for upper, lower in pairwise(layers):
        where = f"{upper.top_cm:g}-{upper.bottom_cm:g} cm and {lower.top_cm:g}-{lower.bottom_cm:g} cm"
        place = _layer_place(protocol, lower, "top_cm")
        mend = f"start the lower one at {upper.bottom_cm:g} cm"
        if lower.top_cm < upper.bottom_cm:
            yield error("layers-overlap", place, f"the layers {where} overlap", "layers that join", mend)
        elif lower.top_cm > upper.bottom_cm:
            yield error("layers-gap", place, f"the layers {where} leave a hole", "layers that join", mend)


def cores_are_enough(protocol: Located[Protocol]) -> Iterator[Problem]:
    """A topsoil composite has 25 cores, a deep one 8 and never under 6, but for a written reason."""
    if protocol.value.reasons.get("cores"):
        return
    mend = phrase("take more cores, or write why fewer will do under reasons: {cores: ...}")
    for layer in protocol.value.layers:
        place = _layer_place(protocol, layer, "cores")
        found = phrase(
            "{cores} cores for the layer {top}-{bottom} cm",
            cores=layer.cores,
            top=Figure(f"{layer.top_cm:g}"),
            bottom=Figure(f"{layer.bottom_cm:g}"),
        )
        if layer.top_cm == 0 and layer.cores < limits().topsoil_cores:
            yield error("too-few-cores", place, found, f"at least {limits().topsoil_cores}", mend)
        elif layer.top_cm > 0 and layer.cores < limits().deep_cores_least:
            yield error("too-few-cores", place, found, f"at least {limits().deep_cores_least}", mend)
        elif layer.top_cm > 0 and layer.cores < limits().deep_cores:
            yield warning("few-cores", place, found, phrase("at least {cores}", cores=limits().deep_cores), mend)


def gaps_are_not_shorter(protocol: Located[Protocol], gaps: Mapping[str, Gap]) -> Iterator[Problem]:
    """A protocol waits as long as the practice, or longer."""
    for material_class, months in protocol.value.gap_months.items():
        gap = gaps.get(material_class)
        if gap is not None and gap.counts and months < gap.months:
            found = f"protocol {protocol.value.id} waits {months} months after {material_class}"
            expected = f"at least the practice's {gap.months} months"
            mend = "take it out; a client's shorter wait goes under gap_overrides in its own file, with a reason"
            yield error("gap-shorter-than-practice", protocol.at("gap_months", material_class), found, expected, mend)


def practice_gaps_are_long_enough(parts: SharedParts) -> Iterator[Problem]:
    """The practice waits three months after every class that counts, but for a written reason."""
    least = limits().gap_months_least
    for gap in parts.gaps:
        value = gap.value
        if value.counts and value.months < least and not value.reason:
            found = f"{value.months} months after {value.material_class}"
            mend = f"wait at least {least} months, or write the reason"
            yield error("gap-too-short", gap.at("months"), found, f"at least {least} months", mend)
        if not value.counts and not value.reason:
            found = f"{value.material_class} does not count, without a reason"
            yield error("reason-missing", gap.at("counts"), found, "a reason", "write why under reason")
