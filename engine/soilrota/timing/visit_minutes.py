"""How long a visit takes on the farm, from the cores and zones to take."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil

from soilrota.model.visits import WorkMinutes, ZoneWork

_STEP_CM = 30


def visit_minutes(work: Iterable[ZoneWork], figures: WorkMinutes) -> int:
    """Return the minutes on the farm [min], rounded up; 0 where there is no work.

    A zone is set up and walked once, whatever is taken there; a layer that several protocols ask for in one zone is
    taken once, with the greater number of cores. A layer from the surface to 30 cm at most is taken by hand; one
    deep hole serves all other layers, so the holes are those of the deep layer with the most cores, and their depth
    that of the deepest.

    Args:
        work: what is to be taken, one entry a task, in any order.
        figures: minutes of each piece of work; common practice, no source.
    """
    zones: dict[tuple[str, str], list[ZoneWork]] = {}
    for piece in work:
        zones.setdefault((piece.farm, piece.zone), []).append(piece)
    if not zones:
        return 0
    return ceil(figures.arrival + sum(_zone_minutes(zones[key], figures) for key in sorted(zones)) - 1e-9)


def _zone_minutes(pieces: list[ZoneWork], figures: WorkMinutes) -> float:
    """Return the minutes in one zone [min]."""
    cores: dict[tuple[float, float], int] = {}
    for piece in pieces:
        for layer in piece.layers:
            depth = (layer.top_cm, layer.bottom_cm)
            cores[depth] = max(cores.get(depth, 0), layer.cores)
    shallow = [number for (top, bottom), number in cores.items() if top == 0 and bottom <= _STEP_CM]
    deep = {(top, bottom): number for (top, bottom), number in cores.items() if top > 0 or bottom > _STEP_CM}
    holes = max(deep.values(), default=0)
    steps = ceil(max((bottom for _, bottom in deep), default=0) / _STEP_CM)
    walking = figures.walking_a_hectare * max(piece.area_ha for piece in pieces)
    taking = figures.topsoil_core * sum(shallow) + figures.deep_core_each_30_cm * holes * steps
    return figures.zone_set_up + walking + taking
