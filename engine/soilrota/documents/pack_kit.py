"""The kit list of a visit, from its protocols, their layers and analyses.

Corer with a stop, bucket that is neither galvanised nor brass, bags, labels, pen, cool box, tape and knife follow the
published guide of Agriculture Victoria; what else is listed is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.documents.dates import counted, joined, number
from soilrota.documents.pack_views import KitLine
from soilrota.documents.pack_words import BAG_KG, holding_days, inside, is_deep_layer
from soilrota.model.field_pack import FieldPack, PackTask
from soilrota.quantities import analysis_name, split_code

#: Trace elements that a galvanised or brass tool brings into the sample.
TRACE = frozenset({"zinc", "copper", "manganese", "iron", "boron"})
_SPARE_BAGS = 5


def kit_for(pack: FieldPack) -> tuple[KitLine, ...]:
    """Return what to take along on a visit."""
    tasks = [task for zone in pack.zones for task in zone.tasks]
    return (*_corers(tasks, pack), *_soil(tasks, pack), *_bags(tasks), *_always(pack))


def _depths(depths: set[float], pack: FieldPack) -> str:
    """Return depths [cm] in words, from the least."""
    return f"{joined([number(depth, pack.client.language) for depth in sorted(depths)])} cm"


def _corers(tasks: list[PackTask], pack: FieldPack) -> Iterator[KitLine]:
    """Yield what takes the cores."""
    layers = [layer for task in tasks for layer in task.layers]
    shallow = {layer.bottom_cm for layer in layers if not is_deep_layer(layer)}
    deep = {layer.bottom_cm for layer in layers if is_deep_layer(layer)}
    if shallow:
        yield KitLine("Corer with a depth stop", f"stop or mark at {_depths(shallow, pack)}; spare tip")
    if deep:
        with_deep = [task.layers for task in tasks if any(is_deep_layer(layer) for layer in task.layers)]
        marks = {layer.bottom_cm for some in with_deep for layer in some}
        yield KitLine(f"Deep corer, to {_depths({max(deep)}, pack)}", f"marks at {_depths(marks, pack)}; spare tip")
        yield KitLine("Plan of buried services", "the local locating service's answer, printed; paint or flags")
        yield KitLine("Gloves, ear and eye protection for the deep corer or rig", "as its instructions say")
    if len({(layer.top_cm, layer.bottom_cm) for layer in layers}) > 1 or deep:
        yield KitLine("Tray and ruler", "to lay cores out and cut layers apart")
    rows = [zone.zone.rows for zone in pack.zones if zone.zone.rows is not None]
    if rows:
        apart = {row.spacing_cm for row in rows}
        yield KitLine("Tape", f"rows {_depths(apart, pack)} apart: measure from the row")


def _soil(tasks: list[PackTask], pack: FieldPack) -> Iterator[KitLine]:
    """Yield what the soil goes into first."""
    most = max((len(task.layers) for task in tasks), default=0)
    asked = dict.fromkeys(code for task in tasks for code in task.protocol.analyses if split_code(code)[0] in TRACE)
    clean = (
        f"not galvanised, not brass, no rust: {joined([inside(analysis_name(code)) for code in asked])} "
        f"{'is' if len(asked) == 1 else 'are'} asked for"
        if asked
        else ""
    )
    depths = {layer.bottom_cm for task in tasks if len(task.layers) == most for layer in task.layers}
    marked = f"one a layer, marked {_depths(depths, pack)}" if most > 1 else ""
    yield KitLine(
        counted(most, "clean plastic bucket", "clean plastic buckets"), "; ".join(filter(None, (marked, clean)))
    )
    tools = "stainless steel or plastic only" if asked else ""
    yield KitLine("Knife or spatula, brush", tools)


def _bags(tasks: list[PackTask]) -> Iterator[KitLine]:
    """Yield what the soil travels in."""
    bags = sum(len(task.bags) for task in tasks)
    yield KitLine(
        counted(bags + _SPARE_BAGS, "sample bag", "sample bags"),
        f"{bags} and {_SPARE_BAGS} spare; about {BAG_KG:g} kg each",
    )
    yield KitLine(f"Labels for {counted(bags, 'bag', 'bags')}, permanent pens", "waterproof; a pencil for the rain")
    days = [found for task in tasks if (found := holding_days(task.protocol)) is not None]
    if days:
        yield KitLine(
            "Cool box with ice, thermometer",
            f"some bags must be at the laboratory within {counted(min(days), 'day', 'days')}",
        )
    else:
        yield KitLine("Box for the bags", "dry and out of the sun")


def _always(pack: FieldPack) -> Iterator[KitLine]:
    """Yield what every visit needs."""
    points = " with the points of this visit" if any(task.layout for zone in pack.zones for task in zone.tasks) else ""
    yield KitLine(f"Phone or receiver{points}", "charged, spare battery, maps kept for no signal")
    yield KitLine("This pack, clipboard with a rain cover", "printed")
    yield KitLine("Disinfectant or detergent, water, boot brush", "to arrive clean and leave clean")
    yield KitLine("First-aid kit, water, hat, sun cream, rain gear", "high-visibility clothing near machines")
