"""Cautions, where they are needed, and what the programme is not. Local rules and licensed practice come first."""

from __future__ import annotations

from collections.abc import Iterable

from soilrota.documents.protocols import is_deep
from soilrota.language import marked, say
from soilrota.model.applications import Standing
from soilrota.model.client import Client
from soilrota.model.windows import Window

#: Closer to water than this [m] a spreading is worth a caution. House default.
NEAR_WATER_M = 50
#: Below this [cm] a core may meet pipes and cables that lie shallow. Common practice, no source.
PIPES_CM = 15
_SPREAD_BY_DUST = frozenset({"lime", "gypsum"})
_RUNS_OFF = frozenset({"manure", "compost", "biosolids", "mineral-fertiliser"})

ALWAYS = (
    marked(
        "Go with the farm's rules on livestock, machinery, firearms and re-entry after spraying, and tell somebody "
        "where you are and when you will be back: people who sample often work alone."
    ),
    marked(
        "Clean boots, tyres and tools before you leave each farm. Moving soil may need a permit where quarantine holds."
    ),
    marked("In heat, on days of fire danger, in lightning, or on steep wet ground: go another day."),
)
DEEP = marked(
    "Before any core deeper than 30 cm: have buried services (power, gas, water, drains, cable) located through the "
    "local service, and ask the farmer for private pipes and cables. If in doubt, do not core."
)
PIPES = marked(
    "Some pipes and cables lie shallower than 30 cm: before any core deeper than 15 cm, ask the farmer where private "
    "ones run, and keep away from them."
)
POWERED = marked(
    "Deep cores are often taken with a powered rig: trained people only, guards on, no loose clothing, nobody near."
)
DUST = marked("Lime and gypsum dust harm eyes and lungs: keep out of the drift, protect eyes and breath near it.")
WATER = marked(
    "What is spread near water, on frozen or waterlogged ground, or before heavy rain can run off: keep the distances "
    "of the local rules, which come before anything said here."
)
NOTES = (
    marked(
        "This programme says when and how to sample. It is not advice on rates; advice follows from the results, and "
        "a qualified adviser signs it."
    ),
    marked(
        "Every waiting time is counted in calendar months from the last day of spreading. Where no source is "
        "published, the figure is common practice."
    ),
    marked("A value counts against a target only when method, unit and depth are the same."),
)


def cautions_for(client: Client, windows: Iterable[Window]) -> tuple[str, ...]:
    """Return the cautions that this client's tasks, zones and spreadings call for."""
    protocols = {window.key.protocol for window in windows}
    deep = any(is_deep(client.protocols[protocol]) for protocol in protocols)
    layers = [layer for protocol in protocols for layer in client.protocols[protocol].layers]
    below_topsoil = any(layer.bottom_cm > PIPES_CM for layer in layers)
    ahead = {row.material_class for row in client.applications if row.standing is Standing.PLANNED}
    zones = [zone for farm in client.farms for zone in farm.zones]
    near = any(zone.distance_to_water_m is not None and zone.distance_to_water_m < NEAR_WATER_M for zone in zones)
    called_for = (
        *((DEEP, POWERED) if deep else (PIPES,) if below_topsoil else ()),
        *ALWAYS,
        *((DUST,) if ahead & _SPREAD_BY_DUST else ()),
        *((WATER,) if near or ahead & _RUNS_OFF else ()),
    )
    return tuple(map(say, called_for))
