"""From the practice's file and the laboratories' files to the model."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

from soilrota.book.check_samples import build_check_materials, build_dismissed, build_inbox
from soilrota.book.laboratory_forms import build_forms
from soilrota.book.mail import build_mail
from soilrota.book.parts import Located
from soilrota.book.places import items
from soilrota.book.reminders import build_choices, kinds
from soilrota.model.documents import Colours
from soilrota.model.guideline import GuidelineSet
from soilrota.model.practice import (
    Absence,
    AnalysisWait,
    CheckBag,
    FieldPackChoices,
    Gap,
    Hemisphere,
    Laboratory,
    MonthDay,
    MonthDaySpan,
    Night,
    NotesForm,
    Person,
    Practice,
    ReportChoices,
    ResponseValue,
    Season,
)
from soilrota.model.products import ProductList
from soilrota.model.stations import Station
from soilrota.problems import Place

#: What holds where the practice's file does not say (see the schema of practice.yaml).
_LANGUAGE = "en-GB"
_DEADLINE_S = 120.0
_MEMORY_MB = 1024
_MINUTES_A_DAY = 480
_DAYS_BEFORE = 60
_DAY_FORM = "year-month-day"
_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


def build_practice(
    file: Located[Mapping[str, Any]],
    laboratories: Mapping[str, Laboratory],
    default_gaps: Mapping[str, Gap],
    default_waits: Iterable[AnalysisWait],
    check_bags: Iterable[CheckBag] = (),
    *,
    guidelines: Mapping[str, GuidelineSet] | None = None,
    products: ProductList | None = None,
) -> Located[Practice]:
    """Return the practice.

    Args:
        file: the top of practice.yaml.
        laboratories: by id.
        default_gaps: the engine's own waiting times by class; the practice's own replace them class by class.
        default_waits: the engine's own longer waits; the practice's own are added.
        check_bags: the blind check samples that were sent.
        guidelines: the practice's own guideline sets by id; none where None.
        products: what can be bought and spread; None where no file says.
    """
    data = file.data
    night = data.get("night", {})
    own_gaps = {gap.value.material_class: gap.value for gap in build_gaps(file)}
    practice = Practice(
        name=data["name"],
        time_zone=data["time_zone"],
        logo=data.get("logo", ""),
        contact=data.get("contact", ""),
        language=data.get("language", _LANGUAGE),
        colours=Colours(**data.get("colours", {})),
        people={person.value.id: person.value for person in build_people(file)},
        seasons={season.value.id: season.value for season in build_seasons(file)},
        gaps={**default_gaps, **own_gaps},
        analysis_waits=(*default_waits, *_waits(data)),
        laboratories=dict(laboratories),
        night=Night(float(night.get("deadline_s", _DEADLINE_S)), night.get("memory_mb", _MEMORY_MB)),
        place=file.at(),
        worked_weekdays=weekday_numbers(data.get("worked_weekdays", _WEEKDAYS[:5])),
        leave=tuple(absence.value for absence in build_leave(file)),
        stations={station.value.id: station.value for station in build_stations(file)},
        field_packs=_field_packs(data.get("field_packs", {})),
        report=_report(data.get("report", {})),
        notes_form=_notes_form(data["field_notes"]) if "field_notes" in data else None,
        inbox=build_inbox(data),
        check_materials={material.value.id: material.value for material in build_check_materials(file)},
        check_bags=tuple(check_bags),
        dismissed=tuple(row.value for row in build_dismissed(file)),
        guidelines=dict(guidelines or {}),
        products=products,
        response_values=_response_values(data),
        reminders=build_choices(data),
        mail=build_mail(data),
    )
    return Located(practice, file.at, data)


def _response_values(data: Mapping[str, Any]) -> tuple[ResponseValue, ...]:
    """Return what responses are worth."""
    return tuple(
        ResponseValue(one["input"], tuple(one.get("land_uses", ())), float(one["per_ha"]))
        for one in data.get("response_values", ())
    )


def _report(data: Mapping[str, Any]) -> ReportChoices:
    """Return how farm reports are made."""
    return ReportChoices(data["wait_days"]) if "wait_days" in data else ReportChoices()


def _field_packs(data: Mapping[str, Any]) -> FieldPackChoices:
    """Return how field packs are made."""
    return FieldPackChoices(data.get("days_before", _DAYS_BEFORE), data.get("label_sheet", ""))


def _notes_form(data: Mapping[str, Any]) -> NotesForm:
    """Return how field notes of the practice's phones and tablets are written."""
    return NotesForm(dict(data["columns"]), dict(data.get("soil_state", {})), data.get("day_form", _DAY_FORM))


def build_leave(file: Located[Mapping[str, Any]]) -> tuple[Located[Absence], ...]:
    """Return the days on which the practice is away, in the order of the file."""
    return tuple(item.holding(_absence(item)) for item in items(file, "leave"))


def _absence(item: Located[Mapping[str, Any]]) -> Absence:
    """Return days away."""
    data = item.data
    return Absence(date.fromisoformat(data["first"]), date.fromisoformat(data["last"]), data["reason"], item.at())


def build_stations(file: Located[Mapping[str, Any]]) -> tuple[Located[Station], ...]:
    """Return the weather stations of the practice, in the order of the file."""
    return tuple(
        item.holding(
            Station(
                item.data["id"],
                item.data["name"],
                float(item.data["latitude"]),
                float(item.data["longitude"]),
                item.at(),
            )
        )
        for item in items(file, "weather_stations")
    )


def build_people(file: Located[Mapping[str, Any]]) -> tuple[Located[Person], ...]:
    """Return the people of the practice, in the order of the file."""
    return tuple(item.holding(_person(item, file.data)) for item in items(file, "people"))


def _person(item: Located[Mapping[str, Any]], practice: Mapping[str, Any]) -> Person:
    """Return one person; who has no weekdays of their own works on those of the practice."""
    data = item.data
    base = data.get("base")
    return Person(
        id=data["id"],
        name=data["name"],
        role=data["role"],
        email=data.get("email", ""),
        qualification=data.get("qualification", ""),
        place=item.at(),
        base=(float(base["longitude"]), float(base["latitude"])) if base else None,
        minutes_a_day=data.get("minutes_a_day", _MINUTES_A_DAY),
        weekdays=weekday_numbers(data.get("weekdays", practice.get("worked_weekdays", _WEEKDAYS[:5]))),
        leave=tuple(absence.value for absence in build_leave(item)),
        longest_way_km=data.get("longest_way_km"),
        gets=kinds(data),
    )


def build_seasons(file: Located[Mapping[str, Any]]) -> tuple[Located[Season], ...]:
    """Return the seasons of the practice, in the order of the file."""
    return tuple(
        item.holding(Season(id=item.data["id"], name=item.data["name"], spans=_spans(item.data), place=item.at()))
        for item in items(file, "seasons")
    )


def _spans(data: Mapping[str, Any]) -> dict[Hemisphere, tuple[MonthDaySpan, ...]]:
    """Return the spans of a season on each hemisphere that it has any on."""
    return {
        hemisphere: tuple(MonthDaySpan(month_day(span["first"]), month_day(span["last"])) for span in spans)
        for hemisphere in Hemisphere
        if (spans := data.get(hemisphere.value))
    }


def month_day(text: str) -> MonthDay:
    """Return the day of the year that `month-day` text names, for instance 01-20."""
    month, day = text.split("-")
    return MonthDay(int(month), int(day))


def build_gaps(file: Located[Mapping[str, Any]]) -> tuple[Located[Gap], ...]:
    """Return the waiting times that the practice sets itself, in the order of the file."""
    return tuple(item.holding(_gap(item.data, item.at())) for item in items(file, "gaps"))


def _gap(data: Mapping[str, Any], place: Place) -> Gap:
    """Return one waiting time; 0 months where the class does not count."""
    counts = data.get("counts", True)
    return Gap(
        material_class=data["class"],
        counts=counts,
        months=data.get("months", 0) if counts else 0,
        reason=data.get("reason", ""),
        source=data.get("source", "the practice's own rule"),
        place=place,
    )


def _waits(data: Mapping[str, Any]) -> Iterable[AnalysisWait]:
    """Yield the longer waits that the practice adds."""
    for wait in data.get("analysis_waits", ()):
        yield AnalysisWait(wait["class"], tuple(wait["analytes"]), wait["months"], wait["source"])


def build_laboratory(laboratory_id: str, file: Located[Mapping[str, Any]]) -> Laboratory:
    """Return the laboratory of one file; its id is the file's name."""
    data = file.data
    return Laboratory(
        id=laboratory_id,
        name=data["name"],
        country=data["country"],
        turnaround_working_days=data["turnaround_working_days"],
        courier_days=data["courier_days"],
        receiving_weekdays=weekday_numbers(data.get("receiving_weekdays", _WEEKDAYS[:5])),
        place=file.at(),
        forms=tuple(form.value for form in build_forms(laboratory_id, file)),
    )


def weekday_numbers(names: Iterable[str]) -> tuple[int, ...]:
    """Return the ISO numbers of weekdays (1 Monday to 7 Sunday), sorted.

    >>> weekday_numbers(["tuesday", "monday"])
    (1, 2)
    """
    return tuple(sorted(_WEEKDAYS.index(name) + 1 for name in names))
