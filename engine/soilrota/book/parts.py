"""What the rules look at: the values of a client's files, each with the places of its properties."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any, Generic, TypeVar
from typing import Protocol as Interface

from soilrota.model.applications import Application
from soilrota.model.client import Blackout, Contact, Decision, Farm, GapOverride, LastSampled, Zone
from soilrota.model.cropping import CropYear
from soilrota.model.ground import Outline, Ring
from soilrota.model.guideline import GuidelineSet
from soilrota.model.laboratory_files import LaboratoryForm
from soilrota.model.practice import (
    Absence,
    CheckBag,
    CheckMaterial,
    DismissedRow,
    Gap,
    Hemisphere,
    Person,
    Practice,
    Season,
)
from soilrota.model.products import Product
from soilrota.model.protocol import Protocol
from soilrota.model.result_findings import Acceptance
from soilrota.model.results import Result, Target
from soilrota.model.samples import FieldNote
from soilrota.model.stations import Station
from soilrota.problems import Place

Value_co = TypeVar("Value_co", covariant=True)
Other = TypeVar("Other")


class PlaceOf(Interface):
    """Returns the place of a property of a value, or of the value itself where no path is given."""

    def __call__(self, *path: str | int) -> Place:
        """Return the place; the nearest one above where the property is not written."""


@dataclass(frozen=True, slots=True)
class Located(Generic[Value_co]):
    """A value with what was written and where.

    Attributes:
        value: the value of the model.
        at: gives the place of each of its properties.
        data: the properties as they are written, defaults not filled in.
    """

    value: Value_co
    at: PlaceOf
    data: Mapping[str, Any]

    def holding(self, value: Other) -> Located[Other]:
        """Return another value with the same places and the same writing."""
        return Located(value, self.at, self.data)


@dataclass(frozen=True, slots=True)
class Feature:
    """One feature of the map.

    Attributes:
        kind: `farm`, `zone`, `avoid`, `access`, `fixed-point`, `soil`, `land-use` or `landscape`.
        farm: id of its farm.
        zone: id of its zone; empty for the other kinds.
        shape: `point`, `line` or `area`.
        positions: one tuple of (longitude, latitude) [degree] a point, line or ring.
        outline: its surface; None where it has none.
    """

    kind: str
    farm: str
    zone: str
    shape: str
    positions: tuple[Ring, ...]
    outline: Outline | None


@dataclass(frozen=True, slots=True)
class Shared:
    """What all clients of a practice share, checked.

    Attributes:
        practice: the practice, its laboratories included.
        protocols: the shared protocols by id.
    """

    practice: Practice
    protocols: dict[str, Protocol]


@dataclass(frozen=True, slots=True)
class SharedParts:
    """What the rules of the shared files look at.

    Attributes:
        practice: the practice, with its file's places.
        people, seasons, gaps, protocols: in the order of the files, so that repeated ids show.
        leave, stations, check_materials, dismissed: in the order of the file.
        check_bags: rows of check_samples.csv.
        forms: how laboratories write their results, in the order of their files.
        guidelines: the practice's own guideline sets, each as it stands in its file.
        products: in the order of products.yaml.
    """

    practice: Located[Practice]
    people: tuple[Located[Person], ...]
    seasons: tuple[Located[Season], ...]
    gaps: tuple[Located[Gap], ...]
    protocols: tuple[Located[Protocol], ...]
    leave: tuple[Located[Absence], ...] = ()
    stations: tuple[Located[Station], ...] = ()
    check_materials: tuple[Located[CheckMaterial], ...] = ()
    check_bags: tuple[Located[CheckBag], ...] = ()
    dismissed: tuple[Located[DismissedRow], ...] = ()
    forms: tuple[Located[LaboratoryForm], ...] = ()
    guidelines: tuple[Located[GuidelineSet], ...] = ()
    products: tuple[Located[Product], ...] = ()


@dataclass(frozen=True, slots=True)
class ClientParts:
    """What the rules of one client look at.

    Attributes:
        shared: what all clients share.
        file: the top of the client's file.
        hemisphere: northern or southern.
        adviser: id of the adviser.
        time_zone: IANA name.
        contacts: people of the client.
        farms, zones: in the order of the file; a zone knows its farm.
        last_sampled: (zone, sampling) of all zones.
        targets, decisions, gap_overrides: as agreed.
        own_protocols: protocols of the client's file, refined.
        protocols: the shared and the client's own by id.
        applications, field_notes, cropping, results: rows.
        features: what the map draws.
        map_failed: whether there is a map that could not be read.
        blackouts: days on which the client wants nobody on the land.
        acceptances: what people said about findings on results.
    """

    shared: Shared
    file: Located[Mapping[str, Any]]
    hemisphere: Hemisphere
    adviser: str
    time_zone: str
    contacts: tuple[Contact, ...]
    farms: tuple[Located[Farm], ...]
    zones: tuple[Located[Zone], ...]
    last_sampled: tuple[tuple[Zone, Located[LastSampled]], ...]
    targets: tuple[Located[Target], ...]
    decisions: tuple[Located[Decision], ...]
    gap_overrides: tuple[Located[GapOverride], ...]
    own_protocols: tuple[Located[Protocol], ...]
    protocols: dict[str, Protocol]
    applications: tuple[Located[Application], ...]
    field_notes: tuple[Located[FieldNote], ...]
    cropping: tuple[Located[CropYear], ...]
    results: tuple[Located[Result], ...]
    features: tuple[Located[Feature], ...]
    map_failed: bool
    blackouts: tuple[Located[Blackout], ...] = ()
    acceptances: tuple[Located[Acceptance], ...] = ()

    def zone_names(self) -> tuple[str, ...]:
        """Return every zone as `farm/zone`."""
        return tuple(f"{zone.value.farm}/{zone.value.id}" for zone in self.zones)

    def zones_of(self, farm: str) -> tuple[str, ...]:
        """Return the ids of the zones of one farm."""
        return tuple(zone.value.id for zone in self.zones if zone.value.farm == farm)

    def former_zones_of(self, farm: str) -> tuple[str, ...]:
        """Return the ids that zones of one farm name as their former series, and that are no zone any more."""
        there = self.zones_of(farm)
        followed = (one for zone in self.zones if zone.value.farm == farm for one in zone.value.follows)
        return tuple(dict.fromkeys(word for one in followed for word in one.zones if word not in there))

    def zones_by_name(self) -> dict[str, Located[Zone]]:
        """Return the zones by `farm/zone`."""
        return {f"{zone.value.farm}/{zone.value.id}": zone for zone in self.zones}

    def days(self) -> Iterator[tuple[date, Place]]:
        """Yield every day that the client's files name, with its place."""
        yield from self._days_of_the_client()
        yield from self._days_of_records()

    def _days_of_the_client(self) -> Iterator[tuple[date, Place]]:
        """Yield the days of the client's file."""
        for _, sampling in self.last_sampled:
            yield sampling.value.day, sampling.at("day")
        for zone in self.zones:
            yield from ((forebear.since, forebear.place) for forebear in zone.value.follows)
        for decision in self.decisions:
            yield decision.value.day, decision.at("day")
        for blackout in self.blackouts:
            yield blackout.value.first, blackout.at("first")
            yield blackout.value.last, blackout.at("last")
        for acceptance in self.acceptances:
            if acceptance.value.sampled is not None:
                yield acceptance.value.sampled, acceptance.at("sampled")

    def _days_of_records(self) -> Iterator[tuple[date, Place]]:
        """Yield the days of what was recorded."""
        for application in self.applications:
            for column in ("first_day", "last_day"):
                day = getattr(application.value, column)
                if day is not None and application.data.get(column):
                    yield day, application.at(column)
        for note in self.field_notes:
            yield note.value.day, note.at("day")
        for result in self.results:
            yield result.value.sampled, result.at("sampled")
            yield result.value.reported, result.at("reported")
