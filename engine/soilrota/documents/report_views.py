"""What a farm report shows, already formatted: frozen values that templates only place on the page."""

from __future__ import annotations

from dataclasses import dataclass

from soilrota.model.documents import HOUSE_COLOURS, Colours


@dataclass(frozen=True, slots=True)
class MatterView:
    """One of the things that matter most: its headline, why, how sure it is."""

    headline: str
    why: str


@dataclass(frozen=True, slots=True)
class RatingMapView:
    """The map of the farm by one rating.

    Attributes:
        caption: what it shows.
        map: the map; empty where none is drawn.
        key: swatches with their words.
        height: its greatest height as a length of the style, see `soilrota.documents.report_fit`; empty without one.
    """

    caption: str
    map: str
    key: tuple[tuple[str, str], ...]
    height: str = ""


@dataclass(frozen=True, slots=True)
class CellView:
    """One value of the table of zones: mark, value, words; all empty where it was not measured."""

    mark: str = ""
    value: str = ""
    words: str = ""
    target: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class TableView:
    """Zones by analyses of one layer: caption, columns (name, unit), rows (letter, zone, sampled, cells)."""

    caption: str
    columns: tuple[tuple[str, str], ...]
    rows: tuple[tuple[str, str, str, tuple[CellView, ...]], ...]


@dataclass(frozen=True, slots=True)
class ResultView:
    """One result of a zone: what, its value with its interval, what it is held against, what it means, its chart."""

    name: str
    depth: str
    value: str
    interval: str
    target: str
    sources: str
    mark: str
    words: str
    meaning: str
    chart: str
    trend: str


@dataclass(frozen=True, slots=True)
class StepView:
    """One step of a working: what, its amount, where it comes from."""

    words: str
    amount: str
    source: str


@dataclass(frozen=True, slots=True)
class NeedView:
    """One need: headline with amount and range, its working, what bounds it, what goes with it."""

    headline: str
    steps: tuple[StepView, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ProtocolPart:
    """What was found in one zone under one protocol.

    Attributes:
        protocol, sampled: its name where the zone has several; day of the last sampling and the guideline, in words.
        results: a row an analysis and layer.
        profiles: depth profiles; empty where there is one layer.
        shares: cation shares, a bar a layer; empty where they were not reckoned.
        constraints: what is, or may be, too high.
        quantities: what was reckoned from the results, and what could not be.
        about_results, about_samples: every finding.
        next: when it is sampled next.
    """

    protocol: str
    sampled: str
    results: tuple[ResultView, ...]
    profiles: tuple[str, ...]
    shares: tuple[str, ...]
    constraints: tuple[str, ...]
    quantities: tuple[str, ...]
    about_results: tuple[str, ...]
    about_samples: tuple[str, ...]
    next: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ZonePart:
    """One zone: letter, name, facts, parts by protocol, advice; `no_results` says so where there is nothing."""

    letter: str
    name: str
    facts: str
    no_results: str
    parts: tuple[ProtocolPart, ...]
    needs: tuple[NeedView, ...]
    timing: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ShoppingView:
    """What to buy and what it costs: products, where they go, the bill, further words.

    `products` holds name, amount; `spreadings` zone, product, rate, amount, cost; `bill` what, cost.
    """

    products: tuple[tuple[str, str], ...]
    spreadings: tuple[tuple[str, str, str, str, str], ...]
    bill: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SampleRow:
    """How one bag was taken: zone, day, layer, cores, soil, bag."""

    zone: str
    day: str
    depth: str
    cores: str
    soil: str
    bag: str


@dataclass(frozen=True, slots=True)
class SignatureView:
    """Whether the report is signed, and the words of the block at its end.

    Attributes:
        is_signed: whether the signature stands.
        banner: what stands on every page of a draft; empty where it is signed.
        who: name and qualification.
        lines: the words of the block.
    """

    is_signed: bool
    banner: str
    who: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FarmReportView:
    """Everything that the report of one farm shows, formatted.

    Attributes:
        title, client, farm, locality, practice, contact, adviser, language, logo: head and foot.
        sampled: when the farm was last sampled and how many results there are, in words.
        absent: what has not come back yet, in sentences; empty where everything has.
        matters: what matters most, at most three.
        calm: what is said where nothing stands out; empty otherwise.
        map: the map by a rating.
        tables: zones by analyses, a table a layer and some columns.
        spreads: what means over the farm would hide.
        zones: zone by zone.
        advice_note: what is said where no advice was reckoned; empty where it was.
        priorities: what comes first for the money: zone, action, worth, working.
        shopping: what to buy; None where no mix was reckoned.
        protocols: how sampling is done, by protocol: name, sentences.
        samples: how the last bags were taken.
        corrections: what laboratories corrected.
        notes: how to read this.
        sources: numbered from 1.
        cautions: before anything is spread.
        signature: whether it is signed.
        colours: of the practice.
    """

    title: str
    client: str
    farm: str
    locality: str
    practice: str
    contact: str
    adviser: str
    language: str
    logo: str
    sampled: str
    absent: tuple[str, ...]
    matters: tuple[MatterView, ...]
    calm: str
    map: RatingMapView
    tables: tuple[TableView, ...]
    spreads: tuple[str, ...]
    zones: tuple[ZonePart, ...]
    advice_note: str
    priorities: tuple[tuple[str, str, str, str], ...]
    shopping: ShoppingView | None
    protocols: tuple[tuple[str, tuple[str, ...]], ...]
    samples: tuple[SampleRow, ...]
    corrections: tuple[str, ...]
    notes: tuple[str, ...]
    sources: tuple[str, ...]
    cautions: tuple[str, ...]
    signature: SignatureView
    colours: Colours = HOUSE_COLOURS
