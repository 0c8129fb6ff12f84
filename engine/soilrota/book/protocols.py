"""From protocols as written to the model; a client's protocol may refine a shared one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any

from soilrota.book.limits import limits
from soilrota.book.parts import Located
from soilrota.book.places import items
from soilrota.book.rules.references import unknown
from soilrota.model.protocol import Layer, Protocol
from soilrota.problems import Place, Problem


def build_protocols(
    file: Located[Mapping[str, Any]], shared: Mapping[str, Protocol]
) -> tuple[tuple[Located[Protocol], ...], tuple[Problem, ...]]:
    """Return the protocols of a file in its order.

    Args:
        file: the top of protocols.yaml or client.yaml.
        shared: the protocols that `based_on` may name, by id; empty for the shared file itself.

    Returns:
        The protocols, each refined one completed from the shared one; problems: `unknown-protocol`, and a protocol
        whose basis is unknown is left out.
    """
    built: list[Located[Protocol]] = []
    problems: list[Problem] = []
    for item in items(file, "protocols"):
        basis = item.data.get("based_on")
        if basis is None:
            built.append(item.holding(_new(item.data, item.at())))
        elif basis in shared:
            changes = _given(item.data)
            built.append(item.holding(replace(shared[basis], **changes, id=item.data["id"], place=item.at())))
        else:
            problems.append(unknown("unknown-protocol", item.at("based_on"), "shared protocol", basis, shared))
    return tuple(built), tuple(problems)


def _new(data: Mapping[str, Any], place: Place) -> Protocol:
    """Return a protocol that stands for itself."""
    defaults: dict[str, Any] = {
        "name": data["id"],
        "purpose": "",
        "tolerance_days": limits().tolerance_days,
        "laboratory": "",
        "gap_months": {},
        "soil_state": "moist",
        "reasons": {},
    }
    return Protocol(**{**defaults, **_given(data), "id": data["id"], "place": place})


def _given(data: Mapping[str, Any]) -> dict[str, Any]:
    """Return the properties that are written, as the model holds them."""
    given = {key: value for key, value in data.items() if key not in {"id", "based_on"}}
    if "layers" in given:
        given["layers"] = _layers(given["layers"])
    for length in {"spacing_m", "edge_m"} & given.keys():
        given[length] = float(given[length])
    if "analyses" in given:
        given["analyses"] = tuple(given["analyses"])
    return given


def _layers(layers: Iterable[Mapping[str, Any]]) -> tuple[Layer, ...]:
    """Return the layers from the top down."""
    return tuple(sorted(map(_layer, layers), key=lambda layer: (layer.top_cm, layer.bottom_cm)))


def _layer(data: Mapping[str, Any]) -> Layer:
    """Return one layer; cores where not given: those of a topsoil or of a deep composite."""
    usual = limits().topsoil_cores if data["top_cm"] == 0 else limits().deep_cores
    return Layer(float(data["top_cm"]), float(data["bottom_cm"]), data.get("cores", usual))


def protocols_named(zones: Iterable[str], others: Iterable[str], known: Mapping[str, Protocol]) -> dict[str, Protocol]:
    """Return the protocols that a client's files name, by id, in the order in which they are first named."""
    return {word: known[word] for word in _once(zones, others) if word in known}


def _once(*words: Iterable[str]) -> Iterator[str]:
    """Yield each word once, in order."""
    yield from dict.fromkeys(word for some in words for word in some)
