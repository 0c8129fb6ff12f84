"""The practice: its people, its calendar of seasons, its waiting times, the laboratories it uses."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from soilrota.model.documents import HOUSE_COLOURS, Colours
from soilrota.model.ground import Position
from soilrota.model.guideline import GuidelineSet
from soilrota.model.laboratory_files import LaboratoryForm
from soilrota.model.mail import Mail
from soilrota.model.products import ProductList
from soilrota.model.reminder_choices import ReminderChoices, ReminderKind
from soilrota.model.stations import Station
from soilrota.problems import Place


class Hemisphere(StrEnum):
    """Which half of the year is summer."""

    NORTHERN = "northern"
    SOUTHERN = "southern"


@dataclass(frozen=True, slots=True, order=True)
class MonthDay:
    """A day of the year without its year.

    Attributes:
        month: 1 to 12.
        day: 1 to 31; 29 February reads as 28 February in a common year.
    """

    month: int
    day: int


@dataclass(frozen=True, slots=True)
class MonthDaySpan:
    """From one day of the year to another, both included; wraps the year end where `last` comes before `first`."""

    first: MonthDay
    last: MonthDay


@dataclass(frozen=True, slots=True)
class Season:
    """A season of the practice's calendar.

    Attributes:
        id: its id.
        name: what people call it.
        spans: its spans in each hemisphere; a hemisphere without spans is missing.
        place: where it is declared.
    """

    id: str
    name: str
    spans: dict[Hemisphere, tuple[MonthDaySpan, ...]]
    place: Place


@dataclass(frozen=True, slots=True)
class Gap:
    """How long to wait after an application of one class.

    Attributes:
        material_class: class of the application, for instance `lime`.
        counts: whether the class closes days at all.
        months: calendar months to wait [month]; 0 where the class does not count.
        reason: why the class does not count, or why it was shortened; may be empty.
        source: published source or `common practice, no source`.
        place: where it is declared (the practice's file or the engine's own table).
    """

    material_class: str
    counts: bool
    months: int
    reason: str
    source: str
    place: Place


@dataclass(frozen=True, slots=True)
class AnalysisWait:
    """A longer wait that holds for some analyses only, for instance pH after lime.

    Attributes:
        material_class: class of the application.
        analytes: ids of the analytes that it holds for.
        months: calendar months to wait [month].
        source: published source.
    """

    material_class: str
    analytes: tuple[str, ...]
    months: int
    source: str


@dataclass(frozen=True, slots=True)
class Absence:
    """Days on which the practice is away, both ends included, and why."""

    first: date
    last: date
    reason: str
    place: Place


@dataclass(frozen=True, slots=True)
class Person:
    """Someone of the practice.

    Attributes:
        id, name: who.
        role: `adviser`, `sampler` or `office`.
        email: where messages go; may be empty.
        qualification: printed with a signature; may be empty.
        place: where it is declared.
        base: where field days start and end (longitude, latitude) [degree]; None for who has none.
        minutes_a_day: longest field day, work and driving together [min].
        weekdays: ISO weekdays on which the person samples (1 Monday to 7 Sunday).
        leave: days away.
        longest_way_km: longest way by road from the base to a farm [km]; None for no limit.
        gets: kinds of reminders that the person is told of; None for those of the role.
    """

    id: str
    name: str
    role: str
    email: str
    qualification: str
    place: Place
    base: Position | None = None
    minutes_a_day: int = 480
    weekdays: tuple[int, ...] = (1, 2, 3, 4, 5)
    leave: tuple[Absence, ...] = ()
    longest_way_km: float | None = None
    gets: frozenset[ReminderKind] | None = None


@dataclass(frozen=True, slots=True)
class Laboratory:
    """A laboratory.

    Attributes:
        id, name, country: who and where.
        turnaround_working_days: from receipt to results [d].
        courier_days: working days on the way [d].
        receiving_weekdays: ISO weekdays on which it receives (1 Monday to 7 Sunday).
        place: its file.
        forms: the ways in which it writes its results.
    """

    id: str
    name: str
    country: str
    turnaround_working_days: int
    courier_days: int
    receiving_weekdays: tuple[int, ...]
    place: Place
    forms: tuple[LaboratoryForm, ...] = ()


@dataclass(frozen=True, slots=True)
class Night:
    """Limits of the overnight run: seconds [s] and memory [MB] that one client may take."""

    deadline_s: float
    memory_mb: int


@dataclass(frozen=True, slots=True)
class FieldPackChoices:
    """How field packs are made.

    Attributes:
        days_before: for visits up to so many days ahead [d].
        label_sheet: id of the label sheet that the practice prints on; empty for the default.
    """

    days_before: int = 60
    label_sheet: str = ""


@dataclass(frozen=True, slots=True)
class ReportChoices:
    """How farm reports are made: a first report waits so long for bags that have not come back [d]."""

    wait_days: int = 30


@dataclass(frozen=True, slots=True)
class NotesForm:
    """How the practice's phones or tablets write field notes.

    Attributes:
        columns: their heading by our column.
        soil_states: `dry`, `moist` or `wet` by their word.
        day_form: order of their days: `year-month-day`, `day-month-year` or `month-day-year`.
    """

    columns: dict[str, str]
    soil_states: dict[str, str]
    day_form: str


@dataclass(frozen=True, slots=True)
class AssignedValue:
    """What a check material holds of one analysis: the value and its standard deviation between runs [unit]."""

    analyte: str
    method: str
    unit: str
    value: float
    sd: float


@dataclass(frozen=True, slots=True)
class CheckMaterial:
    """A soil that the practice sends to laboratories under ordinary bag ids, to see how they measure."""

    id: str
    name: str
    values: tuple[AssignedValue, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class CheckBag:
    """A blind check sample: bag id, material, laboratory, the day on which it was sent."""

    bag: str
    material: str
    laboratory: str
    sent: date
    place: Place


@dataclass(frozen=True, slots=True)
class DismissedRow:
    """A row set aside that the practice closed: `digest:number`, why, and who said so."""

    row: str
    reason: str
    by: str
    place: Place


@dataclass(frozen=True, slots=True)
class ResponseValue:
    """What a response to an input is worth where the zone responds, by the practice's own reckoning.

    Attributes:
        input: of what, as `soilrota.model.advice.Input` names it.
        land_uses: land uses that it holds for; empty for all.
        per_ha: in the currency of the products [currency/ha].
    """

    input: str
    land_uses: tuple[str, ...]
    per_ha: float


@dataclass(frozen=True, slots=True)
class Inbox:
    """How the inbox is taken in: a file is left alone until it was quiet for so long [s]."""

    quiet_s: float = 10.0


@dataclass(frozen=True, slots=True)
class Practice:
    """Everything that clients share, checked.

    Attributes:
        name: the practice's name.
        time_zone: IANA name.
        logo: path of the logo relative to the book folder; empty without one.
        contact: one line for the foot of documents.
        people: by id.
        seasons: by id.
        gaps: by class of application; classes that the practice does not name come from the engine's own table.
        analysis_waits: longer waits that hold for some analyses.
        laboratories: by id.
        night: limits of the overnight run.
        place: the file.
        worked_weekdays: ISO weekdays on which the practice samples (1 Monday to 7 Sunday).
        leave: days on which the whole practice is away.
        stations: weather stations by id.
        field_packs: how field packs are made.
        report: how farm reports are made.
        notes_form: another form in which field notes may come; None for ours alone.
        inbox: how the inbox is taken in.
        check_materials: soils that are sent blind, by id.
        check_bags: the blind check samples that were sent.
        dismissed: rows set aside that the practice closed.
        guidelines: the practice's own guideline sets by id, each laid over the shipped one that it overrides.
        products: what can be bought and spread, and what spreading costs; None without products.yaml.
        response_values: what a response to an input is worth, the first that fits a zone.
        reminders: when who is reminded of what.
        mail: how the practice sends its mail.
        language: language tag of the practice's own documents, and of clients that name none.
        colours: colours of its documents.
    """

    name: str
    time_zone: str
    logo: str
    contact: str
    people: dict[str, Person]
    seasons: dict[str, Season]
    gaps: dict[str, Gap]
    analysis_waits: tuple[AnalysisWait, ...]
    laboratories: dict[str, Laboratory]
    night: Night
    place: Place
    worked_weekdays: tuple[int, ...] = (1, 2, 3, 4, 5)
    leave: tuple[Absence, ...] = ()
    stations: dict[str, Station] = field(default_factory=dict)
    field_packs: FieldPackChoices = FieldPackChoices()
    report: ReportChoices = ReportChoices()
    notes_form: NotesForm | None = None
    inbox: Inbox = Inbox()
    check_materials: dict[str, CheckMaterial] = field(default_factory=dict)
    check_bags: tuple[CheckBag, ...] = ()
    dismissed: tuple[DismissedRow, ...] = ()
    guidelines: dict[str, GuidelineSet] = field(default_factory=dict)
    products: ProductList | None = None
    response_values: tuple[ResponseValue, ...] = ()
    reminders: ReminderChoices = field(default_factory=ReminderChoices)
    mail: Mail = field(default_factory=Mail)
    language: str = "en-GB"
    colours: Colours = HOUSE_COLOURS
