"""Labels for bags, on sheets of A4: one a bag, with its id in large letters and as a QR code.

The page must be printed at its full size; a printer that fits it to its margins moves every label.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from pathlib import Path

import yaml

from soilrota.documents.dates import digits
from soilrota.documents.fonts import fitted
from soilrota.documents.words import LAND_USES
from soilrota.language import say, speaking
from soilrota.model.field_pack import FieldPack

_FILE = Path(__file__).with_name("label_sheets.yaml")
#: Modules of blank paper round a QR code (ISO/IEC 18004).
_QUIET = 4
#: Labels higher than this have larger letters [mm].
_LOW = 50.0


@dataclass(frozen=True, slots=True)
class LabelType:
    """How a label is set: its margin at the sides [mm], the side of its code [mm], heights of letters [pt]."""

    name: str
    margin: float
    code: float
    bag: float
    zone: float
    farm: float
    small: float
    depth: float


_LOW_TYPE = LabelType("low", margin=3, code=17, bag=15, zone=8.5, farm=7.5, small=6.5, depth=9)
_TALL_TYPE = LabelType("tall", margin=4.5, code=26, bag=24, zone=12, farm=10, small=9, depth=13)


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """A sheet of labels on A4.

    Attributes:
        id: its id, columns by rows.
        columns, rows: labels beside and below one another [-].
        width, height: of one label [mm].
        left, top: distance of the first label from the page's left and upper edge [mm].
        pitch_x, pitch_y: from the left edge of one label to that of the next, and from upper to upper edge [mm].
    """

    id: str
    columns: int
    rows: int
    width: float
    height: float
    left: float
    top: float
    pitch_x: float
    pitch_y: float

    def corner(self, place: int) -> tuple[float, float]:
        """Return the left and upper edge of the label of a place, counted from 0 along the rows [mm]."""
        row, column = divmod(place, self.columns)
        return self.left + column * self.pitch_x, self.top + row * self.pitch_y

    @property
    def type(self) -> LabelType:
        """How its labels are set."""
        return _TALL_TYPE if self.height > _LOW else _LOW_TYPE


@dataclass(frozen=True, slots=True)
class LabelView:
    """What one label shows, already in words."""

    bag: str
    client: str
    farm: str
    zone: str
    zone_id: str
    land_use: str
    depth: str
    laboratory: str


@dataclass(frozen=True, slots=True)
class LabelIdentity:
    """What the document says of itself: title, practice, language tag, the document's date."""

    title: str
    practice: str
    language: str
    day: date


@dataclass(frozen=True, slots=True)
class PlacedLabel:
    """A label on its page: its left and upper edge [mm], its lines as they fit, its QR code as SVG."""

    left: float
    top: float
    bag: str
    zone: str
    farm: str
    kind: str
    depth: str
    client: str
    laboratory: str
    code: str


@dataclass(frozen=True, slots=True)
class LabelsView:
    """The whole document: its head, its sheet, its labels page by page."""

    title: str
    practice: str
    language: str
    sheet: LabelSheet
    pages: tuple[tuple[PlacedLabel, ...], ...]


@cache
def label_sheets() -> dict[str, LabelSheet]:
    """Return the sheets that are known, by id."""
    content = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return {row["id"]: LabelSheet(**row) for row in content["sheets"]}


def labels_view(pack: FieldPack) -> tuple[LabelView, ...]:
    """Return the labels of a visit: zones in the order of the route, bags from the top down."""
    with speaking(pack.client.language):
        return tuple(
            LabelView(
                bag=bag.id,
                client=pack.client.name,
                farm=pack.farm.name,
                zone=zone.zone.name,
                zone_id=zone.zone.id,
                land_use=say(LAND_USES.get(zone.zone.land_use, zone.zone.land_use)),
                depth=digits(f"{bag.top_cm:g}–{bag.bottom_cm:g} cm"),
                laboratory=task.laboratory.name if task.laboratory else "",
            )
            for zone in pack.zones
            for task in zone.tasks
            for bag in task.bags
        )


def labels_title(pack: FieldPack) -> str:
    """Return the title of the labels of a visit."""
    with speaking(pack.client.language):
        return say(
            "Labels for {farm}, {client}, visit {number}",
            farm=pack.farm.name,
            client=pack.client.name,
            number=pack.number,
        )


def render_labels(
    labels: Sequence[LabelView], sheet: LabelSheet, identity: LabelIdentity, used: int = 0, book: Path | None = None
) -> bytes:
    """Return labels as PDF.

    Args:
        labels: what each shows, in order.
        sheet: the sheet they are printed on.
        identity: what the document says of itself.
        used: labels of the first sheet that are gone already [-].
        book: the book's folder, for the practice's own template; None for the shipped one.

    Raises:
        RenderingError: the writer logged an error, so that something would be missing.
        TemplateFaultError: the practice's own template cannot be used.
    """
    from soilrota.documents.pdf import blamed, write_pdf  # noqa: PLC0415  # a second of loading that only rendering needs
    from soilrota.documents.templates import labels_html  # noqa: PLC0415

    with speaking(identity.language):
        pages = _pages(labels, sheet, used)
    view = LabelsView(identity.title, identity.practice, identity.language, sheet, pages)
    with blamed(view, book):
        return write_pdf(labels_html(view, identity.day, book), identity.day, {}, "labels.css")


def _pages(labels: Sequence[LabelView], sheet: LabelSheet, used: int) -> tuple[tuple[PlacedLabel, ...], ...]:
    """Return the labels in their places, page by page."""
    full = sheet.columns * sheet.rows
    pages: dict[int, list[PlacedLabel]] = {}
    for number, label in enumerate(labels, start=used % full):
        page, place = divmod(number, full)
        pages.setdefault(page, []).append(_placed(label, sheet, place))
    return tuple(tuple(page) for page in pages.values())


def _placed(label: LabelView, sheet: LabelSheet, place: int) -> PlacedLabel:
    """Return a label at its place, every line cut to its room: some beside the code, some beneath it."""
    set_as = sheet.type
    whole = sheet.width - 2 * set_as.margin
    beside = whole - set_as.code
    left, top = sheet.corner(place)
    return PlacedLabel(
        left=left,
        top=top,
        bag=label.bag,
        zone=fitted(label.zone, beside, set_as.zone, bold=True),
        farm=fitted(label.farm, beside, set_as.farm),
        kind=fitted(f"{label.zone_id} · {label.land_use}", beside, set_as.small),
        depth=label.depth,
        client=fitted(label.client, whole, set_as.small),
        laboratory=fitted(label.laboratory, whole, set_as.small),
        code=qr_code(label.bag),
    )


def qr_code(bag: str) -> str:
    """Return the QR code of a bag as SVG; it holds the id and nothing else, with most of its error correction."""
    import segno  # noqa: PLC0415  # only labels need it

    code = segno.make(bag, error="h", micro=False)
    drawn, title = io.BytesIO(), say("QR code of bag {bag}", bag=bag)
    code.save(drawn, kind="svg", border=_QUIET, omitsize=True, title=title, xmldecl=False, nl=False)
    return drawn.getvalue().decode()
