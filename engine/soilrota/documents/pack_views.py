"""What a field pack shows, already formatted: frozen values that the template only places on the page."""

from __future__ import annotations

from dataclasses import dataclass

from soilrota.model.documents import HOUSE_COLOURS, Colours


@dataclass(frozen=True, slots=True)
class LabelledLine:
    """A label and what stands beside it."""

    label: str
    words: str


@dataclass(frozen=True, slots=True)
class RouteRow:
    """One zone under one protocol on the first page; `anchor` leads to its own page."""

    anchor: str
    letter: str
    zone: str
    protocol: str
    cores: str
    bags: str
    walk: str
    until: str


@dataclass(frozen=True, slots=True)
class KitLine:
    """One thing to take along, and what for or how; the note may be empty."""

    thing: str
    note: str


@dataclass(frozen=True, slots=True)
class CautionView:
    """One caution: what it is about, and what to do."""

    about: str
    words: str


@dataclass(frozen=True, slots=True)
class LayerRow:
    """One layer with its bag, in words."""

    bag: str
    depth: str
    cores: str


@dataclass(frozen=True, slots=True)
class PointRow:
    """One point: number (with `row` where it lies in the row), shape of its mark, decimal degrees, depth taken."""

    number: str
    mark: str
    latitude: str
    longitude: str
    depth: str


#: Points of one column of the table, from the top down.
PointColumn = tuple[PointRow, ...]


@dataclass(frozen=True, slots=True)
class FeelClass:
    """One class of moisture by feel: its name and how the soil behaves in the hand."""

    name: str
    sign: str


@dataclass(frozen=True, slots=True)
class ZonePage:
    """The page of one zone under one protocol.

    Attributes:
        anchor: its name inside the document.
        letter, zone, protocol, facts: head.
        layers: bags and layers, from the top down.
        before: what must be ticked before the first core; empty where nothing must.
        map: picture; empty where the map does not draw the zone.
        beside: sentences beside the picture; empty where it takes the whole width.
        below: sentences over the whole width.
        columns: points in columns.
        more: columns of the points that go on to a page of their own; mostly empty.
        more_points: which points these are, in words; empty without them.
        feel: classes of moisture by feel.
        moisture: what is wanted and known of it.
        room_to_write: height of the box for deviations, as a length of the style.
    """

    anchor: str
    letter: str
    zone: str
    protocol: str
    facts: str
    layers: tuple[LayerRow, ...]
    before: tuple[str, ...]
    map: str
    beside: tuple[str, ...]
    below: tuple[str, ...]
    columns: tuple[PointColumn, ...]
    more: tuple[PointColumn, ...]
    more_points: str
    feel: tuple[FeelClass, ...]
    moisture: tuple[str, ...]
    room_to_write: str


@dataclass(frozen=True, slots=True)
class WhyView:
    """Grounds of a page that had no room for them."""

    heading: str
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CustodyRow:
    """One bag of the custody form."""

    bag: str
    zone: str
    depth: str


@dataclass(frozen=True, slots=True)
class CustodyView:
    """One custody form: all bags that go to one laboratory.

    Attributes:
        laboratory: its name; empty where none is named.
        sender: practice, farm and who took the samples.
        asked: what is asked for, a line a protocol.
        notes: how to keep and send the bags.
        rows: the bags.
        cold: whether the temperature matters.
        hand_overs: empty lines for handing over, by number.
    """

    laboratory: str
    sender: str
    asked: tuple[LabelledLine, ...]
    notes: tuple[str, ...]
    rows: tuple[CustodyRow, ...]
    cold: bool
    hand_overs: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FieldPackView:
    """Everything that a field pack shows, formatted.

    Attributes:
        title, client, farm, practice, contact, logo, language: head and foot.
        running_farm, running_day: the same where there is little room, on every page.
        facts: where, when, who, how long, to whom to speak.
        route: zones in the order of the walk.
        kit: what to take along.
        cautions: what to look out for.
        closing: what comes before all of this.
        map: the farm with the route; empty where nothing is drawn.
        pages: one a zone and protocol.
        why: grounds that had no room on their pages.
        custody: one form a laboratory.
        colours: of the practice.
    """

    title: str
    client: str
    farm: str
    practice: str
    contact: str
    logo: str
    language: str
    running_farm: str
    running_day: str
    facts: tuple[LabelledLine, ...]
    route: tuple[RouteRow, ...]
    kit: tuple[KitLine, ...]
    cautions: tuple[CautionView, ...]
    closing: str
    map: str
    pages: tuple[ZonePage, ...]
    why: tuple[WhyView, ...]
    custody: tuple[CustodyView, ...]
    colours: Colours = HOUSE_COLOURS
