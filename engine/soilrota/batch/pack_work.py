"""What a worker does for the field packs of one client: paper, labels, and files for the phone. It writes nothing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from time import perf_counter

from soilrota.batch.counts import counts_for
from soilrota.batch.faults import BatchError
from soilrota.batch.issued import read_issued
from soilrota.batch.layouts import layouts_for
from soilrota.batch.pack_values import PackGrounds, field_pack
from soilrota.batch.reading import read_client, read_shared
from soilrota.batch.values import Answer, Order, made_document
from soilrota.batch.weather import known_on, weather_for
from soilrota.documents import pack_view, render_field_pack
from soilrota.documents.faults import TemplateFaultError
from soilrota.documents.labels import LabelIdentity, label_sheets, labels_title, labels_view, render_labels
from soilrota.documents.phone_files import points_csv, points_geojson, points_gpx
from soilrota.model.client import Client
from soilrota.model.field_pack import FieldPack
from soilrota.model.issued import Issued, IssuedPoint
from soilrota.model.windows import TaskKey
from soilrota.timing import tasks_of, window_of

GPX, GEOJSON, CSV = "points.gpx", "points.geojson", "points.csv"


class PackFaultError(BatchError):
    """The packs cannot be made: a file of the book has an error, or a template of the practice."""


def make_packs(order: Order) -> Answer:
    """Make the packs of the order's visits, dated by the order's as-of date.

    Raises:
        PackFaultError: a file of the book has an error, or a template of the practice.
    """
    began = perf_counter()
    client, issued = _read(order)
    tasks = tasks_of(client, known_on(weather_for(order.root, client)[0] or {}, order.as_of))
    keys = {TaskKey(bag.farm, bag.zone, bag.protocol) for bag in order.bags}
    chosen = [task for task in tasks if task.key in keys]
    grounds = PackGrounds(
        client=client,
        windows={task.key: window_of(task, order.as_of) for task in chosen},
        moisture={task.key: task.moisture for task in chosen},
        layouts=layouts_for(client, issued, [task.key for task in chosen]),
        counts=counts_for(client, [task.key for task in chosen]),
        bags=order.bags,
    )
    placed = {row["visit"]: row for row in order.placed}
    packs = [field_pack(grounds, visit, placed.get(visit["visit"])) for visit in order.visits]
    try:
        files = tuple(_files(packs, order))
    except TemplateFaultError as fault:
        raise PackFaultError(str(fault)) from fault
    return Answer(
        client=order.client,
        inputs="",
        holds_until=None,
        rows=(),
        documents=tuple(made_document(name, order.as_of, content) for name, content in files),
        problems=(),
        took_s=perf_counter() - began,
        points=tuple(_points(packs, order.as_of)),
    )


def _read(order: Order) -> tuple[Client, Issued]:
    """Return the client and what was given out for it."""
    shared, problems = read_shared(order.root)
    if shared is None:
        raise PackFaultError(f"the files that all clients share got errors during the night: {problems[0]}")
    client, problems = read_client(order.root, order.client, shared)
    if client is None:
        raise PackFaultError(f"the client's files got errors during the night: {problems[0]}")
    issued, problems = read_issued(order.root, order.client)
    if issued is None:
        raise PackFaultError(f"what was given out before cannot be read: {problems[0]}")
    return client, issued


def _files(packs: Sequence[FieldPack], order: Order) -> Iterator[tuple[str, bytes]]:
    """Yield name and content of every file: two a visit, and those for the phone."""
    for pack in packs:
        name = f"{pack.farm.id}-{pack.number}"
        yield f"field_pack-{name}.pdf", render_field_pack(pack_view(pack), order.as_of, order.root)
        yield f"labels-{name}.pdf", _labels(pack, order)
    if any(
        task.layout is not None and task.layout.points for pack in packs for zone in pack.zones for task in zone.tasks
    ):
        yield GPX, points_gpx(packs)
        yield GEOJSON, points_geojson(packs)
        yield CSV, points_csv(packs)


def _labels(pack: FieldPack, order: Order) -> bytes:
    """Return the labels of a visit on the practice's sheet."""
    sheets = label_sheets()
    sheet = sheets[pack.client.practice.field_packs.label_sheet or next(iter(sheets))]
    identity = LabelIdentity(labels_title(pack), pack.client.practice.name, pack.client.language, order.as_of)
    return render_labels(labels_view(pack), sheet, identity, book=order.root)


def _points(packs: Sequence[FieldPack], day: date) -> Iterator[IssuedPoint]:
    """Yield the points that the packs give out."""
    for pack in packs:
        for zone in pack.zones:
            for task in zone.tasks:
                for point in task.layout.points if task.layout is not None else ():
                    yield IssuedPoint(
                        farm=pack.farm.id,
                        zone=zone.zone.id,
                        protocol=task.protocol.id,
                        season=task.bags[0].season,
                        number=point.number,
                        position=point.position,
                        in_row=point.in_row,
                        issued_on=day,
                    )
