"""The field pack as a PDF, read back: one page a zone, every bag in the custody form, nothing cut."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date
from functools import cache
from typing import Any

import pypdf
import pytest

from soilrota.documents import FieldPackView, pack_view, render_field_pack
from soilrota.documents.pack_view import all_bags
from soilrota.language import spoken
from soilrota.model.field_pack import FieldPack, PackZone
from soilrota.model.layout import Pattern
from soilrota.model.protocol import Layer
from tests.documents.made import BOOK, example
from tests.documents.packs import a_layout, a_pack, a_task, a_visit, moved

MADE = date(2027, 2, 16)
LONG = "The long paddock behind the old railway siding and beside the second creek crossing, northern half "
MM = 72 / 25.4
#: Zones of the packs that are read back: enough for several pages, few enough for a quick test.
ZONES = 3


@cache
def pages_of(pack_name: str) -> tuple[FieldPackView, tuple[str, ...], bytes]:
    """Return the view of an example's pack, the words of its pages, and the PDF."""
    view = pack_view(a_pack(pack_name, zones=ZONES))
    content = render_field_pack(view, MADE, BOOK)
    return view, words_of(content), content


def words_of(content: bytes) -> tuple[str, ...]:
    """Return the words of each page, blanks folded."""
    return tuple(" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(content)).pages)


def zone_pages(pages: tuple[str, ...]) -> list[str]:
    """Return the pages that begin a zone: they alone have boxes for bags."""
    return [page for page in pages if "Depth reached, cm" in page]


def outside(content: bytes) -> list[str]:
    """Return words that begin outside the margins of their page; those of pictures have their own test."""
    found: list[str] = []
    for page in pypdf.PdfReader(io.BytesIO(content)).pages:
        wide, high = float(page.mediabox.width), float(page.mediabox.height)

        def look(text: str, cm: Any, tm: Any, *_: Any, wide: float = wide, high: float = high) -> None:
            x = cm[0] * tm[4] + cm[2] * tm[5] + cm[4]
            y = cm[1] * tm[4] + cm[3] * tm[5] + cm[5]
            in_picture = list(cm) == [1, 0, 0, 1, 0, 0]
            if (
                text.strip()
                and not in_picture
                and not (12 * MM <= x <= wide - 12 * MM and 4 * MM <= y <= high - 4 * MM)
            ):
                found.append(text)

        page.extract_text(visitor_text=look)
    return found


@pytest.mark.parametrize("name", ["brolga-plains", "ellery-orchard", "glen-tarn", "iron-prairie", "juniper-start"])
def test_every_zone_has_one_page(name: str) -> None:
    """From the heading to the box for deviations, all points between; every page has words."""
    view, pages, content = pages_of(name)
    found = zone_pages(pages)
    assert len(found) == len(view.pages)
    for page, text in zip(view.pages, found, strict=True):
        assert page.more == ()
        assert f"{page.letter} {page.zone}" in text
        assert "Deviations" in text
        assert all(layer.bag in text for layer in page.layers)
        assert all(point.latitude in text for column in page.columns for point in column)
    assert all(len(text) > 200 for text in pages)
    assert outside(content) == []


def test_the_first_page_answers() -> None:
    """Weekday, person, way in, the route with cores and pages, all bags."""
    _, pages, _ = pages_of("brolga-plains")
    first = pages[0]
    assert "Thursday 18 February 2027" in first
    assert "Ned Marlow" in first
    assert "-36.196907, 143.025995" in first
    assert "9 bags to North Bench Laboratory" in first
    assert "25 cores of 0–10 cm; 8 cores of 10–30 cm and 30–60 cm" in first
    front = " ".join(pages[:3])
    assert all(heading in front for heading in ("Take along", "Look out for", "The farm and the route"))


def test_the_route_leads_to_the_pages() -> None:
    """Page numbers in the route are those on which the zones stand."""
    view, pages, content = pages_of("brolga-plains")
    numbers = [index for index, page in enumerate(pages, 1) if "Depth reached, cm" in page]
    route = pages[0][pages[0].index("In this order") :]
    for row, number in zip(view.route, numbers, strict=True):
        assert f"{row.walk} {row.until} {number}" in route
    assert len(pypdf.PdfReader(io.BytesIO(content)).named_destinations) >= len(view.route)


def test_every_bag_is_in_the_custody_form() -> None:
    """Once a form, with zone and depth."""
    pack = a_pack(zones=ZONES)
    _, pages, _ = pages_of("brolga-plains")
    custody = " ".join(page for page in pages if "From hand to hand" in page or "Custody form" in page)
    assert all(bag in custody for bag in all_bags(pack))
    for words in ("Handed over by", "Received by", "North Bench Laboratory", "Temp. °C", "Condition", "Colwell P"):
        assert words in custody


def test_it_is_tagged_titled_and_the_same_bytes_again() -> None:
    """PDF/UA, title, language, bookmarks of zones, alternatives of maps; nothing depends on when it is made."""
    view, _, content = pages_of("ellery-orchard")
    found = pypdf.PdfReader(io.BytesIO(content))
    assert found.metadata is not None
    assert found.metadata.title == "Field pack: Ellery Orchard, 18 February 2027"
    root = found.trailer["/Root"]
    assert root["/Lang"] == "en-AU"
    assert b"pdfuaid" in root["/Metadata"].get_object().get_data()
    assert b"Map of Early block" in content or any("Map of Early block" in page.map for page in view.pages)
    assert render_field_pack(view, MADE, BOOK) == content


def test_headings_are_not_left_alone() -> None:
    """No page ends with a heading."""
    view, pages, _ = pages_of("brolga-plains")
    headings = ("Take along", "Look out for", "The farm and the route", "From hand to hand", "In this order")
    foot = f"{view.practice} · {view.contact}"
    for page in pages:
        body = page.replace(foot, "").strip()
        assert not any(body.endswith(heading) for heading in headings)


@pytest.mark.parametrize(
    ("cores", "layers", "name", "pattern"),
    [
        (60, 1, LONG * 3, Pattern.STRATA),
        (60, 1, "Ridge", Pattern.ZIGZAG),
        (40, 3, LONG * 3, Pattern.STRATA),
        (41, 2, LONG, Pattern.TRANSECT),
        (30, 3, "W" * 300, Pattern.ZIGZAG),
        (25, 3, LONG, Pattern.CLUSTER),
    ],
)
def test_a_full_page_is_still_one_page(cores: int, layers: int, name: str, pattern: Pattern) -> None:
    """Long names, many points and layers, every sentence there is: the page holds, and the map is on it."""
    client = example("brolga-plains")
    farm = client.farms[0]
    zone = replace(farm.zones[0], name=name, mixed_with=("stony rises", "an old gilgai flat"))
    depths = [(0.0, 10.0, cores), *((10.0 + 20 * step, 30.0 + 20 * step, 8) for step in range(layers - 1))]
    protocol = replace(client.protocols["deep-nitrogen"], name=name, layers=tuple(Layer(*depth) for depth in depths))
    layout = a_layout(zone, farm, protocol.layers, pattern)
    task = a_task(client, farm, zone, protocol, layout=replace(layout, moved=moved(layout, 12)))
    view = pack_view(a_visit(client, replace(farm, name=name), (PackZone("A", zone, (task,)),)))
    content = render_field_pack(view, MADE, BOOK)
    pages = words_of(content)
    (page,) = zone_pages(pages)
    assert "Deviations" in page
    assert view.pages[0].map
    assert view.pages[0].more == ()
    assert all(point.longitude in page for column in view.pages[0].columns for point in column)
    assert outside(content) == []


@pytest.mark.parametrize("language", ["en-AU", "es"])
def test_depths_of_half_centimetres_keep_to_one_line(language: str) -> None:
    """A depth that breaks doubles the height of every row, and the box for deviations goes on to the next page."""
    client = replace(example("brolga-plains"), language=language)
    farm = client.farms[0]
    zone = farm.zones[0]
    layers = (Layer(0, 7.5, 25), Layer(7.5, 22.5, 8))
    protocol = replace(client.protocols["deep-nitrogen"], layers=layers)
    task = a_task(client, farm, zone, protocol, layout=a_layout(zone, farm, layers))
    view = pack_view(a_visit(client, farm, (PackZone("A", zone, (task,)),)))
    pages = words_of(render_field_pack(view, MADE, BOOK))
    points = [point for column in view.pages[0].columns for point in column]
    (page,) = [text for text in pages if points[0].latitude in text]
    assert {point.depth for point in points} == {
        depth for depth in ("0–7.5", "0–22.5", "0–7,5", "0–22,5") if depth in page
    }
    assert all(f"{point.longitude} {point.depth}" in page for point in points)
    assert ("Desviaciones" if language == "es" else "Deviations") in page


def test_sixty_points_of_many_layers_go_on_to_a_page_of_their_own() -> None:
    """The map keeps its size; every point is listed on the next page."""
    client = example("brolga-plains")
    farm = client.farms[0]
    zone = farm.zones[0]
    layers = (Layer(0, 10, 60), Layer(10, 20, 30), Layer(20, 30, 20), Layer(30, 60, 12), Layer(60, 90, 9))
    protocol = replace(client.protocols["deep-nitrogen"], layers=layers)
    task = a_task(client, farm, zone, protocol, layout=a_layout(zone, farm, layers, Pattern.STRATA))
    view = pack_view(a_visit(client, farm, (PackZone("A", zone, (task,)),)))
    pages = words_of(render_field_pack(view, MADE, BOOK))
    index = next(number for number, page in enumerate(pages) if "Depth reached, cm" in page)
    assert "Deviations" in pages[index]
    assert "Next page: where the points lie." in pages[index]
    listed = view.pages[0].more
    assert sum(len(column) for column in listed) == 60
    assert all(point.latitude in pages[index + 1] for column in listed for point in column)


def test_nobody_named_and_no_zone_drawn() -> None:
    """A pack without person, map and laboratory is still a pack."""
    pack: FieldPack = replace(a_pack("juniper-start"), person="", walk_m=None)
    view = pack_view(pack)
    assert view.map == ""
    facts = {fact.label: fact.words for fact in view.facts}
    assert facts["Who"] == "nobody is named yet"
    assert "ask the farmer" in facts["Where"]
    assert "walking" not in facts["How long"]
    assert all(row.walk == "–" for row in view.route)
    assert render_field_pack(view, MADE, BOOK).startswith(b"%PDF")


def test_a_pack_speaks_the_language_of_its_client() -> None:
    """Days and numbers are its language's, and nothing of it is left behind."""
    pack = a_pack(zones=1)
    before = spoken()
    view = pack_view(replace(pack, client=replace(pack.client, language="es")))
    assert spoken() == before
    assert "18 de febrero de 2027" in view.title
    assert "jueves" in view.running_day
    assert any("0,5 kg" in line.note for line in view.kit)
    assert not any("0.5 kg" in line.note for line in view.kit)
    assert {row.bag for form in view.custody for row in form.rows} == set(all_bags(pack))
