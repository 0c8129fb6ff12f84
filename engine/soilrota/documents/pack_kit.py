"""The kit list of a visit, from its protocols, their layers and analyses.

Corer with a stop, bucket that is neither galvanised nor brass, bags, labels, pen, cool box, tape and knife follow the
published guide of Agriculture Victoria; what else is listed is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.documents.dates import counted, digits, joined, number
from soilrota.documents.pack_views import KitLine
from soilrota.documents.pack_words import BAG_KG, holding_days, is_deep_layer
from soilrota.language import say, say_count
from soilrota.model.field_pack import FieldPack, PackTask
from soilrota.quantities import analysis_inside, split_code

#: Trace elements that a galvanised or brass tool brings into the sample.
TRACE = frozenset({"zinc", "copper", "manganese", "iron", "boron"})
_SPARE_BAGS = 5


def kit_for(pack: FieldPack) -> tuple[KitLine, ...]:
    """Return what to take along on a visit."""
    tasks = [task for zone in pack.zones for task in zone.tasks]
    return (*_corers(tasks, pack), *_soil(tasks, pack), *_bags(tasks), *_always(pack))


def _depths(depths: set[float], pack: FieldPack) -> str:
    """Return depths, or distances of rows, in words, from the least [cm]."""
    return f"{joined([number(depth, pack.client.language) for depth in sorted(depths)])} cm"


def _corers(tasks: list[PackTask], pack: FieldPack) -> Iterator[KitLine]:
    """Yield what takes the cores."""
    layers = [layer for task in tasks for layer in task.layers]
    shallow = {layer.bottom_cm for layer in layers if not is_deep_layer(layer)}
    deep = {layer.bottom_cm for layer in layers if is_deep_layer(layer)}
    if shallow:
        yield KitLine(
            say("Corer with a depth stop"), say("stop or mark at {depths}; spare tip", depths=_depths(shallow, pack))
        )
    if deep:
        with_deep = [task.layers for task in tasks if any(is_deep_layer(layer) for layer in task.layers)]
        marks = {layer.bottom_cm for some in with_deep for layer in some}
        yield KitLine(
            say("Deep corer, to {depth}", depth=_depths({max(deep)}, pack)),
            say("marks at {depths}; spare tip", depths=_depths(marks, pack)),
        )
        yield KitLine(
            say("Plan of buried services"), say("the local locating service's answer, printed; paint or flags")
        )
        yield KitLine(say("Gloves, ear and eye protection for the deep corer or rig"), say("as its instructions say"))
    if len({(layer.top_cm, layer.bottom_cm) for layer in layers}) > 1 or deep:
        yield KitLine(say("Tray and ruler"), say("to lay cores out and cut layers apart"))
    rows = [zone.zone.rows for zone in pack.zones if zone.zone.rows is not None]
    if rows:
        apart = {row.spacing_cm for row in rows}
        yield KitLine(say("Tape"), say("rows {distances} apart: measure from the row", distances=_depths(apart, pack)))


def _soil(tasks: list[PackTask], pack: FieldPack) -> Iterator[KitLine]:
    """Yield what the soil goes into first."""
    most = max((len(task.layers) for task in tasks), default=0)
    asked = dict.fromkeys(code for task in tasks for code in task.protocol.analyses if split_code(code)[0] in TRACE)
    clean = (
        say_count(
            "not galvanised, not brass, no rust: {analyses} is asked for",
            "not galvanised, not brass, no rust: {analyses} are asked for",
            len(asked),
            analyses=joined([analysis_inside(code) for code in asked]),
        )
        if asked
        else ""
    )
    depths = {layer.bottom_cm for task in tasks if len(task.layers) == most for layer in task.layers}
    marked = say("one a layer, marked {depths}", depths=_depths(depths, pack)) if most > 1 else ""
    yield KitLine(
        counted(most, "clean plastic bucket", "clean plastic buckets"), "; ".join(filter(None, (marked, clean)))
    )
    tools = say("stainless steel or plastic only") if asked else ""
    yield KitLine(say("Knife or spatula, brush"), tools)


def _bags(tasks: list[PackTask]) -> Iterator[KitLine]:
    """Yield what the soil travels in."""
    bags = sum(len(task.bags) for task in tasks)
    yield KitLine(
        counted(bags + _SPARE_BAGS, "sample bag", "sample bags"),
        say("{bags} and {spare} spare; about {mass} kg each", bags=bags, spare=_SPARE_BAGS, mass=digits(f"{BAG_KG:g}")),
    )
    yield KitLine(
        say("Labels for {bags}, permanent pens", bags=counted(bags, "bag", "bags")),
        say("waterproof; a pencil for the rain"),
    )
    days = [found for task in tasks if (found := holding_days(task.protocol)) is not None]
    if days:
        yield KitLine(
            say("Cool box with ice, thermometer"),
            say("some bags must be at the laboratory within {days}", days=counted(min(days), "day", "days")),
        )
    else:
        yield KitLine(say("Box for the bags"), say("dry and out of the sun"))


def _always(pack: FieldPack) -> Iterator[KitLine]:
    """Yield what every visit needs."""
    has_points = any(task.layout for zone in pack.zones for task in zone.tasks)
    yield KitLine(
        say("Phone or receiver with the points of this visit") if has_points else say("Phone or receiver"),
        say("charged, spare battery, maps kept for no signal"),
    )
    yield KitLine(say("This pack, clipboard with a rain cover"), say("printed"))
    yield KitLine(say("Disinfectant or detergent, water, boot brush"), say("to arrive clean and leave clean"))
    yield KitLine(say("First-aid kit, water, hat, sun cream, rain gear"), say("high-visibility clothing near machines"))
