"""A client: farms, zones, and what was agreed with them; and the whole client file as one checked value."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from soilrota.model.applications import Application
from soilrota.model.cropping import CropYear
from soilrota.model.ground import AvoidedPlace, Outline, Position
from soilrota.model.layout import Rows
from soilrota.model.practice import Hemisphere, Practice
from soilrota.model.protocol import Protocol
from soilrota.model.reminder_choices import ReminderKind
from soilrota.model.result_findings import Acceptance
from soilrota.model.results import Correction, Result, Target
from soilrota.model.samples import FieldNote
from soilrota.problems import Place, Problem


@dataclass(frozen=True, slots=True)
class Contact:
    """A person of the client; `gets` holds the kinds of reminders to tell of, None for the practice's choice."""

    name: str
    role: str
    email: str
    phone: str
    gets: frozenset[ReminderKind] | None = None


@dataclass(frozen=True, slots=True)
class LastSampled:
    """A sampling from before the book's records: protocol id and day."""

    protocol: str
    day: date
    place: Place


@dataclass(frozen=True, slots=True)
class Forebear:
    """A zone, or an earlier shape of the same zone, whose results belong to an older series.

    Attributes:
        zones: former zones on the same farm, by id; the zone's own id where it was only redrawn.
        since: first day of the new series.
        how: `redrawn`, `split` or `merged`.
        place: where it is declared.
    """

    zones: tuple[str, ...]
    since: date
    how: str
    place: Place


@dataclass(frozen=True, slots=True)
class Zone:
    """A piece of land that one composite sample stands for: one soil, one land use, one landscape position.

    Attributes:
        id, farm: ids; the zone's id is unique on its farm.
        name: what people call it.
        soil_type: soil type in words.
        texture: field texture class, for instance `clay-loam`; may be empty.
        clay_percent: clay [%]; None when not known.
        land_use: `crop`, `pasture`, `hay`, `orchard`, `vineyard`, `vegetables`, `horticulture` or `other`.
        landscape_position: `flat`, `crest`, `upper-slope`, `mid-slope`, `lower-slope`, `hollow` or `terrace`.
        area_ha: area [ha], as stated or else from the outline.
        rainfall_zone: `low`, `medium`, `high` or empty.
        distance_to_water_m: shortest distance to a watercourse [m]; None when not known.
        mixed_with: what else lies inside the zone, in words; empty for a uniform zone.
        outline: its polygons; None when the map does not draw it.
        protocols: ids of the protocols in use.
        last_sampled: samplings from before the book's records.
        place: where it is declared.
        rows: crop rows with fertiliser in bands; None without.
        fixed_point: middle of a cluster of cores [degree]; None where the map marks none.
        follows: the series that its own series follows, the latest first; empty for a zone that always was as it is.
        bulk_density: dry mass of the fine earth by the volume that it fills in the topsoil [g/cm3]; None where nobody
            measured it.
        gravel_percent: gravel and stones in the topsoil [% by volume]; None when not known.
        guideline: id of the guideline set that was chosen; empty for the farm's.
        yield_goal: yield goal that was chosen; empty for the farm's.
    """

    id: str
    farm: str
    name: str
    soil_type: str
    texture: str
    clay_percent: float | None
    land_use: str
    landscape_position: str
    area_ha: float
    rainfall_zone: str
    distance_to_water_m: float | None
    mixed_with: tuple[str, ...]
    outline: Outline | None
    protocols: tuple[str, ...]
    last_sampled: tuple[LastSampled, ...]
    place: Place
    rows: Rows | None = None
    fixed_point: Position | None = None
    follows: tuple[Forebear, ...] = ()
    bulk_density: float | None = None
    gravel_percent: float | None = None
    guideline: str = ""
    yield_goal: str = ""


@dataclass(frozen=True, slots=True)
class Farm:
    """A farm of a client.

    Attributes:
        id, name: its id and what people call it.
        locality: where it is, in words; may be empty.
        boundary: its outline; None when the map does not draw it.
        access: where a crew starts (longitude, latitude) [degree]; None when not known.
        avoided: places that cores keep away from.
        zones: in the order of the file.
        place: where it is declared.
        station: id of the weather station that stands for it; empty without one.
        guideline: id of the guideline set that was chosen; empty for the client's.
        yield_goal: yield goal that was chosen; empty for the client's.
    """

    id: str
    name: str
    locality: str
    boundary: Outline | None
    access: Position | None
    avoided: tuple[AvoidedPlace, ...]
    zones: tuple[Zone, ...]
    place: Place
    station: str = ""
    guideline: str = ""
    yield_goal: str = ""


@dataclass(frozen=True, slots=True)
class Blackout:
    """Days on which the client wants nobody on the land.

    Attributes:
        first: first day.
        last: last day, included.
        reason: why.
        zones: zones it holds for, as `farm/zone`; empty for all.
        place: where it is declared.
    """

    first: date
    last: date
    reason: str
    zones: tuple[str, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Decision:
    """A day on which the client must decide something that needs the results.

    Attributes:
        protocol: id of the protocol whose results are needed.
        zones: zones it holds for, as `farm/zone`; empty for all zones under the protocol.
        day: the day.
        what: what is decided, in words.
        place: where it is declared.
    """

    protocol: str
    zones: tuple[str, ...]
    day: date
    what: str
    place: Place


@dataclass(frozen=True, slots=True)
class GapOverride:
    """A waiting time that the client's file sets otherwise, with the reason that is printed with the window.

    Attributes:
        material_class: class of the application.
        months: calendar months to wait [month].
        zones: zones it holds for, as `farm/zone`; empty for all.
        protocols: protocol ids it holds for; empty for all.
        reason: why, and who answers for it.
        place: where it is declared.
    """

    material_class: str
    months: int
    zones: tuple[str, ...]
    protocols: tuple[str, ...]
    reason: str
    place: Place


@dataclass(frozen=True, slots=True)
class Client:
    """One client file of the book, checked: everything that the stages need, and the warnings it carries.

    Attributes:
        id: name of the client's folder.
        name: what people call the client.
        hemisphere: northern or southern.
        country: ISO 3166-1 alpha-2 code.
        subdivision: ISO 3166-2 subdivision without the country; may be empty.
        language: language tag of the documents, for instance `en-AU`.
        time_zone: IANA name.
        contacts: people of the client.
        adviser: id of the adviser who signs.
        farms: in the order of the file.
        targets, decisions, gap_overrides: as agreed.
        applications, field_notes, results: records, in the order of their files.
        protocols: the protocols in use, by id, as refined for this client.
        practice: the practice.
        warnings: problems of severity warning, in order.
        place: the client's file.
        blackouts: days on which the client wants nobody on the land.
        samplers: ids of the people who may sample here; empty for everyone who samples.
        acceptances: what people said about findings on results.
        corrections: what later issues of reports changed, in the order of the reports; `results` holds what stands.
        guideline: id of the guideline set that was chosen; empty for the default of country and land use.
        yield_goal: yield goal that was chosen; empty for the set's own.
        cropping: what grows, in the order of the file.
        build_up_years: over how many years soils are built up [years]; None for the usual.
        lead_times: lead times that the client sets otherwise than the practice, by name [d].
    """

    id: str
    name: str
    hemisphere: Hemisphere
    country: str
    subdivision: str
    language: str
    time_zone: str
    contacts: tuple[Contact, ...]
    adviser: str
    farms: tuple[Farm, ...]
    targets: tuple[Target, ...]
    decisions: tuple[Decision, ...]
    gap_overrides: tuple[GapOverride, ...]
    applications: tuple[Application, ...]
    field_notes: tuple[FieldNote, ...]
    results: tuple[Result, ...]
    protocols: dict[str, Protocol]
    practice: Practice
    warnings: tuple[Problem, ...]
    place: Place
    blackouts: tuple[Blackout, ...] = ()
    samplers: tuple[str, ...] = ()
    acceptances: tuple[Acceptance, ...] = ()
    corrections: tuple[Correction, ...] = ()
    guideline: str = ""
    yield_goal: str = ""
    cropping: tuple[CropYear, ...] = ()
    build_up_years: int | None = None
    lead_times: Mapping[str, int] = field(default_factory=dict)
