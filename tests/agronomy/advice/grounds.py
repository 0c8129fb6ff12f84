"""Ground that lime and gypsum are asked for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from soilrota.agronomy.advice.basis import Basis
from soilrota.model.results import Result, Target
from soilrota.problems import Place
from tests.agronomy.derived.bags import result, zone

Layers = Mapping[tuple[float, float], Mapping[str, float | str]]


def results_of(layers: Layers) -> tuple[Result, ...]:
    """Return results by layer and analysis."""
    return tuple(result(code, value, layer=at) for at, values in layers.items() for code, value in values.items())


def basis(place: str, layers: Layers, *, targets: tuple[Target, ...] = (), **changes: Any) -> Basis:
    """Return ground at a place (`AU-VIC`) with results by layer; further arguments change the zone."""
    country, _, subdivision = place.partition("-")
    return Basis(zone(**changes), country, subdivision, results_of(layers), targets=targets)


def topsoil(place: str, *, targets: tuple[Target, ...] = (), zone_of: Any = None, **values: float) -> Basis:
    """Return ground with results of 0-10 cm; `ph_cacl2=5.1` stands for `ph.cacl2`, `zone_of` changes the zone."""
    codes = {_code(name): value for name, value in values.items()}
    return basis(place, {(0, 10): codes}, targets=targets, **(zone_of or {}))


def wanted_ph(low: float, method: str = "water", zones: tuple[str, ...] = ()) -> Target:
    """Return a target of the client for pH."""
    return Target("ph", method, "pH", low, None, (), zones, 0, 10, "the client", Place("client.yaml"))


def _code(name: str) -> str:
    """Return the analysis that a keyword stands for: the first underscore parts analyte and method."""
    special = {"buffer_sikora": "buffer-ph.sikora", "buffer_mehlich": "buffer-ph.mehlich"}
    special |= {"acidity": "exchange-acidity.mehlich-buffer", "capacity": "exchange-capacity.effective"}
    special |= {"carbon": "organic-carbon.walkley-black"}
    return special.get(name) or name.replace("_", ".", 1)
