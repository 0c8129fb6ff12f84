"""From a visit to the view of its field pack."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import chain

from soilrota.documents.custody_view import custody_views
from soilrota.documents.dates import counted, joined, long_day, number
from soilrota.documents.layout_sentences import metres_words
from soilrota.documents.maps import farm_map
from soilrota.documents.pack_cautions import CLOSING, cautions_for_visit
from soilrota.documents.pack_kit import kit_for
from soilrota.documents.pack_views import FieldPackView, LabelledLine, RouteRow, WhyView
from soilrota.documents.pack_words import cores_words, degrees, shortened, weekday_day
from soilrota.documents.visits_view import time_words
from soilrota.documents.zone_page import zone_anchor, zone_page
from soilrota.model.field_pack import FieldPack, PackTask, PackZone
from soilrota.model.ground import Position

_NO_LABORATORY = "a laboratory not named yet"
#: Letters of names in the table of the route [-].
_LONGEST_ZONE, _LONGEST_PROTOCOL = 90, 70
#: Letters of the farm's name at the head of every page [-].
_LONGEST_HEAD = 40


def pack_view(pack: FieldPack) -> FieldPackView:
    """Return everything that the field pack of a visit shows."""
    client = pack.client
    made = [zone_page(pack, zone, task) for zone in pack.zones for task in zone.tasks]
    return FieldPackView(
        title=f"Field pack: {pack.farm.name}, {long_day(pack.day, client.language)}",
        client=client.name,
        farm=pack.farm.name,
        practice=client.practice.name,
        contact=client.practice.contact,
        logo=client.practice.logo,
        language=client.language,
        running_farm=shortened(pack.farm.name, _LONGEST_HEAD),
        running_day=f"Field pack, {weekday_day(pack.day, client.language)}",
        facts=tuple(_facts(pack)),
        route=tuple(_route_row(pack, zone, task) for zone in pack.zones for task in zone.tasks),
        kit=kit_for(pack),
        cautions=cautions_for_visit(pack),
        closing=CLOSING,
        map=farm_map(pack.farm, [zone.zone.id for zone in pack.zones if zone.zone.outline is not None]),
        pages=tuple(page for page, _ in made),
        why=tuple(
            WhyView(f"{page.letter} {page.zone}: {page.protocol}", elsewhere) for page, elsewhere in made if elsewhere
        ),
        custody=custody_views(pack),
    )


def _facts(pack: FieldPack) -> Iterator[LabelledLine]:
    """Yield where, when, who, how long, to whom to speak and where the bags go."""
    client, farm = pack.client, pack.farm
    place = ", ".join(filter(None, (farm.name, farm.locality)))
    yield LabelledLine("Where", f"{place}. {_way_in(farm.access)}")
    yield LabelledLine("When", weekday_day(pack.day, client.language))
    yield LabelledLine("Who", pack.person or "nobody is named yet")
    walk = f", with {metres_words(pack.walk_m)} of walking" if pack.walk_m is not None else ""
    yield LabelledLine("How long", f"{time_words(pack.work_minutes)} on the farm{walk}")
    people = [", ".join(filter(None, (one.name, one.role, one.phone))) for one in client.contacts]
    if people:
        yield LabelledLine("On the farm", "; ".join(people))
    tasks = [task for zone in pack.zones for task in zone.tasks]
    names = [task.laboratory.name if task.laboratory else _NO_LABORATORY for task in tasks for _ in task.bags]
    yield LabelledLine(
        "Bags", joined([f"{counted(bags, 'bag', 'bags')} to {name}" for name, bags in Counter(names).items()])
    )


def _way_in(access: Position | None) -> str:
    """Return where the way in is."""
    if access is None:
        return "The way in is not on the map: ask the farmer."
    return f"Way in at {degrees(access[1])}, {degrees(access[0])} (latitude, longitude)."


def _route_row(pack: FieldPack, zone: PackZone, task: PackTask) -> RouteRow:
    """Return a task's line on the first page."""
    language = pack.client.language
    days = [span for span in task.open_days if span.last >= pack.day]
    return RouteRow(
        anchor=zone_anchor(zone, task),
        letter=zone.letter,
        zone=f"{shortened(zone.zone.name, _LONGEST_ZONE)}, {number(zone.zone.area_ha, language)} ha",
        protocol=shortened(task.protocol.name, _LONGEST_PROTOCOL),
        cores=cores_words(task.layers, language),
        bags=str(len(task.bags)),
        walk=metres_words(task.layout.walk_m) if task.layout is not None and task.layout.points else "–",
        until=long_day(max(span.last for span in days), language) if days else "–",
    )


def all_bags(pack: FieldPack) -> tuple[str, ...]:
    """Return the ids of all bags of a visit, in the order of the route."""
    tasks = chain.from_iterable(zone.tasks for zone in pack.zones)
    return tuple(bag.id for task in tasks for bag in task.bags)
