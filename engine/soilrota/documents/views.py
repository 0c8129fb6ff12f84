"""What a programme shows, already formatted: frozen values that templates only place on the page."""

from __future__ import annotations

from dataclasses import dataclass

from soilrota.documents.results_view import ResultRow
from soilrota.documents.visits_view import VisitsView
from soilrota.model.documents import HOUSE_COLOURS, Colours


@dataclass(frozen=True, slots=True)
class TaskRow:
    """One line of the first page's table."""

    letter: str
    farm: str
    zone: str
    protocol: str
    state: str
    state_note: str
    mark: str
    window: str
    best: str


@dataclass(frozen=True, slots=True)
class TaskView:
    """One zone under one protocol: when, why, what stands in the way, where, results, what was found about both.

    `about_results` is about the results that are shown, `findings` about how their samples were taken.
    """

    protocol: str
    state: str
    state_note: str
    mark: str
    window: str
    best: str
    why: tuple[str, ...]
    blocks: tuple[str, ...]
    ways_out: tuple[str, ...]
    results: tuple[ResultRow, ...]
    has_targets: bool
    no_results: str
    findings: tuple[str, ...] = ()
    where: tuple[str, ...] = ()
    about_results: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ZoneView:
    """One zone of a farm."""

    letter: str
    name: str
    facts: str
    warnings: tuple[str, ...]
    tasks: tuple[TaskView, ...]


@dataclass(frozen=True, slots=True)
class ProtocolView:
    """One protocol in words."""

    name: str
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FarmView:
    """One farm: its map, its visits (None where nothing wants a day), how its zones are sampled, its zones."""

    name: str
    locality: str
    map: str
    visits: VisitsView | None
    protocols: tuple[ProtocolView, ...]
    zones: tuple[ZoneView, ...]


@dataclass(frozen=True, slots=True)
class ProgrammeView:
    """The whole programme.

    Attributes:
        title, client, practice, contact, adviser, language: what stands on every page or at its head.
        logo: path of the practice's logo relative to the book; empty without one.
        summary: one sentence a kind of task: how many are open, closed, overdue.
        rows: the first page's table, the most urgent first.
        strips: the year strip, one picture for each 30 tasks.
        strip_key: the key of the strip.
        farms: farm by farm.
        corrections: what corrected reports of laboratories changed of late; empty where nothing was corrected.
        cautions: before anybody goes out.
        sources: of the targets, in the order of their numbers.
        notes: how to read this, and what it is not.
        warnings: what the book's check found for this client beyond single zones.
        colours: of the practice.
    """

    title: str
    client: str
    practice: str
    contact: str
    adviser: str
    language: str
    logo: str
    summary: tuple[str, ...]
    rows: tuple[TaskRow, ...]
    strips: tuple[str, ...]
    strip_key: str
    farms: tuple[FarmView, ...]
    corrections: tuple[str, ...]
    cautions: tuple[str, ...]
    sources: tuple[str, ...]
    notes: tuple[str, ...]
    warnings: tuple[str, ...]
    colours: Colours = HOUSE_COLOURS


@dataclass(frozen=True, slots=True)
class StopRow:
    """One stop of the field calendar: day and person (empty where they repeat), farm, work, driving, what to note."""

    day: str
    person: str
    farm: str
    zones: str
    work: str
    driving: str
    note: str


@dataclass(frozen=True, slots=True)
class WeekView:
    """One week of the field calendar: its heading, its picture, its stops."""

    heading: str
    picture: str
    stops: tuple[StopRow, ...]


@dataclass(frozen=True, slots=True)
class LeftRow:
    """A visit that has no day: where, on which days it may be made, why none was found."""

    farm: str
    zones: str
    days: str
    reason: str


@dataclass(frozen=True, slots=True)
class CalendarView:
    """Everything that the field calendar shows, formatted.

    Attributes:
        title, practice, contact, logo, language: head and foot.
        summary: what matters, in sentences.
        key: picture that says what the pictures of the weeks show.
        weeks: weeks with at least one visit.
        left: visits without a day.
        cautions: before anybody drives.
        grounds: how days were found, how good the plan is, where the figures come from.
        colours: of the practice.
    """

    title: str
    practice: str
    contact: str
    logo: str
    language: str
    summary: tuple[str, ...]
    key: str
    weeks: tuple[WeekView, ...]
    left: tuple[LeftRow, ...]
    cautions: tuple[str, ...]
    grounds: tuple[str, ...]
    colours: Colours = HOUSE_COLOURS


@dataclass(frozen=True, slots=True)
class CheckLine:
    """How a laboratory stands for one analysis, on one line: marked, worded, with its last check."""

    laboratory: str
    analysis: str
    material: str
    mark: str
    state: str
    checks: str
    last: str


@dataclass(frozen=True, slots=True)
class CheckRow:
    """One check sample in the table beside a chart: day, bag, value, how far off, marked and worded."""

    day: str
    bag: str
    value: str
    off_by: str
    mark: str
    state: str


@dataclass(frozen=True, slots=True)
class CheckBlock:
    """One chart: heading, mark, what it says and what to do, its picture, its values in two columns, what is left out.

    `tone` is the state as a word for the style sheet: `off`, `watch`, `in-line` or `untold`.
    """

    heading: str
    mark: str
    tone: str
    state: str
    sentence: str
    picture: str
    columns: tuple[tuple[CheckRow, ...], ...]
    left_out: str


@dataclass(frozen=True, slots=True)
class CheckedLaboratory:
    """A laboratory with its charts."""

    name: str
    blocks: tuple[CheckBlock, ...]


@dataclass(frozen=True, slots=True)
class ChecksView:
    """Everything that the document of laboratory checks shows, formatted.

    Attributes:
        title, practice, contact, logo, language: head and foot.
        summary: what matters, in sentences.
        lines: how each laboratory stands for each analysis, the worst first.
        key: picture that says what the marks of the charts mean.
        laboratories: with their charts, the worst first.
        grounds: how it is judged, and where the rules come from.
        colours: of the practice.
    """

    title: str
    practice: str
    contact: str
    logo: str
    language: str
    summary: tuple[str, ...]
    lines: tuple[CheckLine, ...]
    key: str
    laboratories: tuple[CheckedLaboratory, ...]
    grounds: tuple[str, ...]
    colours: Colours = HOUSE_COLOURS
