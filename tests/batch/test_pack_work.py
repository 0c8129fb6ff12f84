"""What a worker makes of a client's visits: paper, labels, files for the phone, and the points that they give out."""

from __future__ import annotations

import csv
import io
from datetime import date
from pathlib import Path

import gpxpy
import pypdf
import pytest

from soilrota.bag_ids import bag_id
from soilrota.batch.pack_work import PackFaultError, make_packs
from soilrota.batch.values import Answer, Order
from soilrota.batch.visit_rows import bags_of, visit_rows
from soilrota.model.field_pack import Bag
from soilrota.timing import visits_of, visits_to_place
from tests.documents.made import AS_OF, BOOK, answers, example
from tests.example_book import copy_example


def _order(root: Path, name: str) -> Order:
    """Return the order for all visits of an example client."""
    client = example(name)
    windows = answers(client)[1]
    visits = visits_of(client, windows)
    rows = visit_rows(client, visits, visits_to_place(client, visits, windows), windows, AS_OF)
    wanted = enumerate((bag for row in rows for bag in bags_of(row)), start=1)
    bags = tuple(
        Bag(bag_id(one), bag.farm, bag.zone, bag.protocol, bag.season, bag.top_cm, bag.bottom_cm) for one, bag in wanted
    )
    placed = ({"visit": rows[0]["visit"], "day": "2027-02-22", "person": "Ned Marlow"},)
    return Order(root, root / "out", name, AS_OF, visits=rows, placed=placed, bags=bags)


def _files(answer: Answer) -> dict[str, bytes]:
    """Return the files by name."""
    return {document.name: document.content or b"" for document in answer.documents}


def _words(content: bytes) -> str:
    """Return the text of a PDF."""
    return "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(content)).pages)


def test_every_bag_and_point_is_on_paper_and_on_the_phone() -> None:
    """Bags on the pack and on the labels; the same points in GPX, in the table and among those given out."""
    order = _order(BOOK, "anvil-creek")
    answer = make_packs(order)
    files = _files(answer)
    assert {name for name in files if name.startswith("field_pack-")} == {
        f"field_pack-{row['farm']}-{row['visit'].rpartition('/')[2]}.pdf" for row in order.visits
    }
    on_packs = "".join(_words(content) for name, content in files.items() if name.startswith("field_pack-"))
    on_labels = "".join(_words(content) for name, content in files.items() if name.startswith("labels-"))
    for bag in order.bags:
        assert bag.id in on_packs
        assert bag.id in on_labels
    assert "Ned Marlow" in on_packs
    rows = list(csv.DictReader(io.StringIO(files["points.csv"].decode(), newline="")))
    client = example("anvil-creek")
    names = {(farm.id, zone.id): zone.name for farm in client.farms for zone in farm.zones}
    given = [(names[point.farm, point.zone], point.number) for point in answer.points]
    assert [(row["zone"], int(row["number"])) for row in rows] == given
    waypoints = gpxpy.parse(files["points.gpx"].decode()).waypoints
    assert len(waypoints) == len(given) > 0
    for point, waypoint in zip(answer.points, waypoints, strict=True):
        assert (waypoint.longitude, waypoint.latitude) == pytest.approx(point.position, abs=1e-6)
    assert {point.issued_on for point in answer.points} == {AS_OF}


def test_the_same_order_gives_the_same_bytes() -> None:
    """Nothing depends on the clock or on chance."""
    order = _order(BOOK, "juniper-start")
    assert _files(make_packs(order)) == _files(make_packs(order))


def test_a_farm_that_the_map_does_not_draw_has_paper_alone() -> None:
    """Pack and labels; no file for the phone."""
    names = sorted(_files(make_packs(_order(BOOK, "juniper-start"))))
    assert all(name.startswith(("field_pack-", "labels-")) for name in names)
    assert names


@pytest.mark.parametrize(
    ("name", "content", "words"),
    [
        ("practice.yaml", "name: [", "all clients share"),
        ("clients/juniper-start/client.yaml", "name: [", "client's files"),
        ("records/issued/juniper-start/bags.csv", "bag\nB0\n", "given out before"),
    ],
)
def test_a_file_that_breaks_during_the_night_is_said(tmp_path: Path, name: str, content: str, words: str) -> None:
    """The fault names what is wrong."""
    root = copy_example(tmp_path / "book")
    order = _order(root, "juniper-start")
    (root / name).parent.mkdir(parents=True, exist_ok=True)
    (root / name).write_text(content, encoding="utf-8")
    with pytest.raises(PackFaultError, match=words):
        make_packs(order)


def test_the_document_carries_the_orders_date() -> None:
    """A pack made again for an earlier night is that night's."""
    order = _order(BOOK, "juniper-start")
    assert {document.known.day for document in make_packs(order).documents} == {date(2027, 2, 15)}
