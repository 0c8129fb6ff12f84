"""Labels: where they lie on the paper, what their codes say, and that nothing leaves a label."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path

import numpy as np
import pypdf
import pypdfium2
import pytest
import zxingcpp
from PIL import Image

from soilrota.bag_ids import bag_id
from soilrota.documents.labels import (
    LabelIdentity,
    LabelView,
    label_sheets,
    labels_title,
    labels_view,
    qr_code,
    render_labels,
)
from tests.documents.label_packs import a_pack

IDENTITY = LabelIdentity("Bag labels", "Merrow and Tarn Soil Practice", "en-AU", date(2027, 2, 15))
DOTS_A_MM = 300 / 25.4
#: Nothing is printed nearer to the edge of a label than this [mm].
KEPT_FREE = 1.5
SHEETS = sorted(label_sheets())
SHORT = LabelView("", "Anvil Creek", "Home", "Ridge", "ridge", "crops", "0–7.5 cm", "")
LONG = LabelView(
    "",
    "The Long Valley Pastoral Company & Daughters of the Upper River and its Tributaries",
    "Home block on the far side of the river <west>, behind the old school",
    "Northflatwithoutanyblankinitsverylongnamethatgoeson",
    "northflat-without-any-end-in-its-very-long-id",
    "vegetables",
    "10–30 cm",
    "The Northern Laboratory of Soils, Plants, Waters and Everything That Grows in Them",
)


def some_labels(number: int) -> tuple[LabelView, ...]:
    """Return labels of short and long names in turn; every tenth id has six digits."""
    return tuple(
        replace(LONG if one % 2 else SHORT, bag=bag_id(5_000_000 + one if one % 10 == 9 else 4_000 + 37 * one))
        for one in range(number)
    )


@cache
def rendered(sheet: str, used: int = 0) -> tuple[bytes, tuple[LabelView, ...]]:
    """Return one and a half pages of labels, and what they show."""
    found = label_sheets()[sheet]
    labels = some_labels(found.columns * found.rows * 3 // 2)
    return render_labels(labels, found, IDENTITY, used), labels


@cache
def pages(sheet: str, used: int = 0) -> tuple[Image.Image, ...]:
    """Return the pages as grey pictures of 300 dots an inch."""
    with pypdfium2.PdfDocument(rendered(sheet, used)[0]) as document:
        made = tuple(
            page.render(scale=300 / 72, grayscale=True, no_smoothpath=True).to_pil().convert("L") for page in document
        )
    assert made
    return made


@pytest.mark.parametrize("sheet", SHEETS)
def test_a_sheet_fills_its_page(sheet: str) -> None:
    """Margins are the same on opposite sides to a twentieth of a millimetre, labels do not overlap."""
    one = label_sheets()[sheet]
    right = 210 - one.corner(one.columns - 1)[0] - one.width
    below = 297 - one.corner(one.columns * one.rows - 1)[1] - one.height
    assert right == pytest.approx(one.left, abs=0.05)
    assert below == pytest.approx(one.top, abs=0.05)
    assert one.pitch_x >= one.width
    assert one.pitch_y >= one.height


@pytest.mark.parametrize("sheet", SHEETS)
def test_every_code_is_read_back_where_it_belongs(sheet: str) -> None:
    """All codes of all pages, in their order, each within half a millimetre of its place on its label."""
    one = label_sheets()[sheet]
    labels = iter(rendered(sheet)[1])
    side, right, top = (26.0, 3.0, 3.0) if one.height > 50 else (17.0, 2.5, 2.2)
    for page in pages(sheet):
        assert page.size == pytest.approx((210 * DOTS_A_MM, 297 * DOTS_A_MM), abs=1.01)
        codes = zxingcpp.read_barcodes(page, formats=zxingcpp.BarcodeFormat.QRCode)
        codes.sort(key=lambda code: (round(code.position.top_left.y / 100), code.position.top_left.x))
        for place, code in enumerate(codes):
            label = next(labels)
            assert code.text == label.bag
            quiet = side * 4 / (29 if len(label.bag) < 11 else 33)
            left, upper = one.corner(place)
            found = code.position.top_left.x / DOTS_A_MM, code.position.top_left.y / DOTS_A_MM
            assert found == pytest.approx((left + one.width - right - side + quiet, upper + top + quiet), abs=0.5)
            far = code.position.bottom_right.x / DOTS_A_MM, code.position.bottom_right.y / DOTS_A_MM
            assert far == pytest.approx((left + one.width - right - quiet, upper + top + side - quiet), abs=0.5)
    assert next(labels, None) is None


@pytest.mark.parametrize("sheet", SHEETS)
def test_nothing_leaves_its_label(sheet: str) -> None:
    """Between the labels, and in the outermost 1.5 mm of each, there is no ink, whatever the names."""
    one = label_sheets()[sheet]
    for page in pages(sheet):
        dark = np.asarray(page) < 200
        for place in range(one.columns * one.rows):
            left, top = one.corner(place)
            ends = [
                round(value * DOTS_A_MM)
                for value in (
                    left + KEPT_FREE,
                    left + one.width - KEPT_FREE,
                    top + KEPT_FREE,
                    top + one.height - KEPT_FREE,
                )
            ]
            dark[ends[2] : ends[3], ends[0] : ends[1]] = False
        assert not dark.any()


@pytest.mark.parametrize("sheet", SHEETS)
def test_labels_read_back_as_text(sheet: str) -> None:
    """Title, tags and date of the document; every short word of every label; cut names keep their beginning."""
    content, labels = rendered(sheet)
    found = pypdf.PdfReader(io.BytesIO(content))
    assert found.metadata is not None
    assert found.metadata.title == "Bag labels"
    assert found.trailer["/Root"]["/MarkInfo"]["/Marked"]
    assert len(found.pages) == 2
    text = " ".join(" ".join(page.extract_text() for page in found.pages).split())
    assert all(label.bag in text for label in labels)
    assert all(text.count(word) >= len(labels) for word in ("Date", "By"))
    for label in labels[:2]:
        assert all(words in text for words in (label.depth, f"{label.zone} "[:12], label.farm[:12], label.client[:20]))
    long = sum(label.client == LONG.client for label in labels)
    assert text.count("…") in {number * long for number in range(2, 6)}


def test_the_same_bytes_again_and_a_sheet_begun() -> None:
    """No clock; with labels used up the first one lies further on."""
    content, labels = rendered("3x7")
    assert render_labels(labels, label_sheets()["3x7"], IDENTITY) == content
    found = zxingcpp.read_barcodes(pages("3x7", 1)[0].crop((0, 0, 2480, 600)))
    assert min(code.position.top_left.x for code in found) > 2480 / 3
    assert len(pages("3x7", 20)) == 3


def test_the_code_has_words_and_nothing_but_the_id() -> None:
    """The picture has a text alternative; no size of its own."""
    drawn = qr_code("B0412-G")
    assert "<title>QR code of bag B0412-G</title>" in drawn
    assert "width=" not in drawn.split(">", 1)[0]


def test_labels_of_a_visit() -> None:
    """One a bag, zones in the order of the route, from the top down, in words."""
    views = labels_view(a_pack(("Ridge & <Top>", "Flat")))
    assert [view.zone for view in views] == ["Ridge & <Top>", "Ridge & <Top>", "Flat", "Flat"]
    assert [view.depth for view in views] == ["0–10 cm", "10–30 cm", "0–10 cm", "10–30 cm"]
    assert [view.bag for view in views] == [bag_id(serial) for serial in range(1, 5)]
    assert {view.land_use for view in views} <= {"pasture", "crops"}
    assert {view.laboratory for view in views} == {"North Bench Laboratory"}
    content = render_labels(views, label_sheets()["2x7"], IDENTITY)
    assert "Ridge & <Top>" in pypdf.PdfReader(io.BytesIO(content)).pages[0].extract_text()


def test_labels_speak_the_language_of_their_client() -> None:
    """Depths have its comma; ids stay as they are; the title names farm, client and visit."""
    pack = a_pack(("Ridge",))
    assert labels_title(pack) == f"Labels for Home, {pack.client.name}, visit 1"
    zone = pack.zones[0]
    bags = tuple(replace(bag, bottom_cm=7.5) for bag in zone.tasks[0].bags[:1])
    spanish = replace(
        pack,
        client=replace(pack.client, language="es"),
        zones=(replace(zone, tasks=(replace(zone.tasks[0], bags=bags),)),),
    )
    (label,) = labels_view(spanish)
    assert (label.depth, label.bag, label.zone_id) == ("0–7,5 cm", bags[0].id, zone.zone.id)


def test_no_labels_no_fault() -> None:
    """A visit without bags makes an empty document."""
    assert render_labels((), label_sheets()["3x7"], IDENTITY).startswith(b"%PDF")


def test_sheets_say_what_they_rest_on() -> None:
    """The file of sheets carries its source."""
    text = (Path(__file__).parents[2] / "engine/soilrota/documents/label_sheets.yaml").read_text(encoding="utf-8")
    assert "from memory, unverified" in text
