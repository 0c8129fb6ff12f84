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
from soilrota.language import say, say_as, speaking
from soilrota.model.field_pack import FieldPack, PackTask, PackZone
from soilrota.model.ground import Position

#: Letters of names in the table of the route [-].
_LONGEST_ZONE, _LONGEST_PROTOCOL = 90, 70
#: Letters of the farm's name at the head of every page [-].
_LONGEST_HEAD = 40


def pack_view(pack: FieldPack) -> FieldPackView:
    """Return everything that the field pack of a visit shows, in the language of its client."""
    with speaking(pack.client.language):
        return _view(pack)


def _view(pack: FieldPack) -> FieldPackView:
    """Return what is shown, in the language that is spoken."""
    client = pack.client
    made = [zone_page(pack, zone, task) for zone in pack.zones for task in zone.tasks]
    return FieldPackView(
        title=say("Field pack: {farm}, {day}", farm=pack.farm.name, day=long_day(pack.day, client.language)),
        client=client.name,
        farm=pack.farm.name,
        practice=client.practice.name,
        contact=client.practice.contact,
        logo=client.practice.logo,
        colours=client.practice.colours,
        language=client.language,
        running_farm=shortened(pack.farm.name, _LONGEST_HEAD),
        running_day=say("Field pack, {day}", day=weekday_day(pack.day, client.language)),
        facts=tuple(_facts(pack)),
        route=tuple(_route_row(pack, zone, task) for zone in pack.zones for task in zone.tasks),
        kit=kit_for(pack),
        cautions=cautions_for_visit(pack),
        closing=say(CLOSING),
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
    yield LabelledLine(say_as("visit", "Where"), f"{place}. {_way_in(farm.access)}")
    yield LabelledLine(say_as("visit", "When"), weekday_day(pack.day, client.language))
    yield LabelledLine(say_as("visit", "Who"), pack.person or say("nobody is named yet"))
    yield LabelledLine(say_as("visit", "How long"), _how_long(pack))
    people = [", ".join(filter(None, (one.name, one.role, one.phone))) for one in client.contacts]
    if people:
        yield LabelledLine(say_as("visit", "On the farm"), "; ".join(people))
    tasks = [task for zone in pack.zones for task in zone.tasks]
    unnamed = say("a laboratory not named yet")
    names = [task.laboratory.name if task.laboratory else unnamed for task in tasks for _ in task.bags]
    sent = [
        say("{bags} to {laboratory}", bags=counted(bags, "bag", "bags"), laboratory=name)
        for name, bags in Counter(names).items()
    ]
    yield LabelledLine(say_as("visit", "Bags"), joined(sent))


def _how_long(pack: FieldPack) -> str:
    """Return how long the visit takes, and how far is walked where that is known."""
    time = time_words(pack.work_minutes)
    if pack.walk_m is None:
        return say("{time} on the farm", time=time)
    return say("{time} on the farm, with {distance} of walking", time=time, distance=metres_words(pack.walk_m))


def _way_in(access: Position | None) -> str:
    """Return where the way in is."""
    if access is None:
        return say("The way in is not on the map: ask the farmer.")
    return say(
        "Way in at {latitude}, {longitude} (latitude, longitude).",
        latitude=degrees(access[1]),
        longitude=degrees(access[0]),
    )


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
