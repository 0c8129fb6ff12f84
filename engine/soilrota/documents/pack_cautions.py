"""Cautions of a visit, by the work at hand. Local rules, the farm's own rules and licensed practice come first.

Locating services before coring: guide to soil sampling of Alberta's government. Arriving and leaving clean: the advice
of Queensland's government on farm hygiene. The others are common practice, no source, and defer to local rules.
"""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.documents.cautions import NEAR_WATER_M, PIPES, PIPES_CM
from soilrota.documents.pack_views import CautionView
from soilrota.documents.pack_words import BAG_KG, is_deep_layer
from soilrota.language import marked, say, say_count
from soilrota.model.field_pack import FieldPack

#: More bags than this are heavy to carry at once [-]. House rule.
_MANY_BAGS = 10
#: Land uses on which animals are not met; stubble may be grazed.
_WITHOUT_STOCK = frozenset({"orchard", "vineyard", "vegetables", "horticulture"})
_SELDOM_SPRAYED = frozenset({"pasture", "hay"})
#: What comes before all cautions; said where it is shown, as the cautions are.
CLOSING = marked(
    "Local rules, the farm's own rules and licensed practice come before anything in this pack. Where they differ, or "
    "where you are in doubt: stop, and ring the office."
)
_DEEP = (
    CautionView(
        marked("Buried services"),
        marked(
            "No core deeper than 30 cm before the local locating service has answered for this place and the farmer "
            "has shown private pipes and cables (power, gas, water, drains, telephone). In doubt, no core."
        ),
    ),
    CautionView(
        marked("Deep corer or rig"),
        marked(
            "Trained people only, guards on, nothing loose that a turning part can catch, nobody else near, no work "
            "under power lines; stop the engine before you clear it."
        ),
    ),
)
_SHALLOW = CautionView(marked("Buried services"), PIPES)
_ALONE = CautionView(
    marked("Working alone"),
    marked(
        "Say where you go and when you will be back; check in when you arrive, at the times agreed, and when you leave."
    ),
)
_WEATHER = CautionView(
    marked("Heat, sun, fire, storm"),
    marked(
        "Water, shade and breaks; keep to the rules of days of fire danger, and leave dry grass with a hot vehicle; "
        "leave open ground in lightning."
    ),
)
_MACHINES = CautionView(
    marked("Machines on the farm"),
    marked("Ask what works where today. Be seen, stay out of reach, park off the tracks."),
)
_STOCK = CautionView(
    marked("Livestock"),
    marked(
        "Ask where bulls and mothers with young are; keep a way out. Leave gates as you find them, or as the farmer "
        "says."
    ),
)
_SPRAY = CautionView(
    marked("Spraying"),
    marked("Ask what was sprayed and when; nobody enters before the re-entry time on the label is over."),
)
_LIFTING = CautionView(
    marked("Lifting and strain"), marked("Carry little at a time, bend the knees, take turns with the corer.")
)
_CLEAN = CautionView(
    marked("Hygiene between farms"),
    marked(
        "Arrive clean and leave clean: take soil off boots, tools and wheels, then wash with detergent or "
        "disinfectant; follow the farm's entry rules."
    ),
)
_QUARANTINE = CautionView(
    marked("Moving soil"),
    marked(
        "Soil that crosses a quarantine border may need a permit, here or on the way to the laboratory: ask before "
        "you go."
    ),
)
_WATER = CautionView(
    marked("Water and steep banks"),
    marked("A zone lies near water: keep off soft banks, and wash nothing into it."),
)


def cautions_for_visit(pack: FieldPack) -> tuple[CautionView, ...]:
    """Return the cautions that the work of a visit calls for, the gravest first."""
    return tuple(
        CautionView(say(caution.about), " ".join([*_weighed(caution, pack), say(caution.words)]))
        for caution in _cautions(pack)
    )


def _weighed(caution: CautionView, pack: FieldPack) -> Iterator[str]:
    """Yield what the bags weigh, before the caution that speaks of lifting, where they are many."""
    bags = _bags(pack)
    if caution is _LIFTING and bags > _MANY_BAGS:
        yield say_count(
            "{count} bag weighs about {mass} kg.",
            "{count} bags weigh about {mass} kg.",
            bags,
            mass=f"{bags * BAG_KG:.0f}",
        )


def _bags(pack: FieldPack) -> int:
    """Return how many bags a visit fills [-]."""
    return sum(len(task.bags) for zone in pack.zones for task in zone.tasks)


def _cautions(pack: FieldPack) -> Iterator[CautionView]:
    """Yield the cautions, not yet said."""
    tasks = [task for zone in pack.zones for task in zone.tasks]
    uses = {zone.zone.land_use for zone in pack.zones}
    if any(is_deep_layer(layer) for task in tasks for layer in task.layers):
        yield from _DEEP
    elif any(layer.bottom_cm > PIPES_CM for task in tasks for layer in task.layers):
        yield _SHALLOW
    yield from (_ALONE, _WEATHER, _MACHINES)
    if not uses <= _WITHOUT_STOCK:
        yield _STOCK
    if not uses <= _SELDOM_SPRAYED:
        yield _SPRAY
    yield from (_LIFTING, _CLEAN, _QUARANTINE)
    distances = [zone.zone.distance_to_water_m for zone in pack.zones]
    if any(distance is not None and distance < NEAR_WATER_M for distance in distances):
        yield _WATER
