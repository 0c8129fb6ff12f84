"""The practice's file."""

from __future__ import annotations

from typing import Any

from soilrota.book.practice import build_gaps, build_laboratory, build_people, build_practice, build_seasons, month_day
from soilrota.model.practice import AnalysisWait, Gap, Hemisphere, MonthDay, MonthDaySpan, NotesForm
from soilrota.problems import Place
from tests.book.written import written

DATA: dict[str, Any] = {
    "name": "Two Rivers",
    "time_zone": "Australia/Melbourne",
    "people": [{"id": "mara", "name": "Mara", "role": "adviser", "email": "mara@two-rivers.example"}],
    "seasons": [{"id": "turn", "name": "Turn of the year", "southern": [{"first": "12-10", "last": "01-20"}]}],
    "gaps": [
        {"class": "lime", "months": 4},
        {"class": "other-amendment", "counts": False, "reason": "seaweed only"},
    ],
    "analysis_waits": [{"class": "lime", "analytes": ["ph"], "months": 12, "source": "house"}],
    "night": {"deadline_s": 60},
}


def test_people_and_seasons() -> None:
    """People and seasons come in the order of the file; a season holds only the hemispheres it has."""
    top = written(DATA)
    (person,), (season,) = build_people(top), build_seasons(top)
    assert (person.value.email, person.value.qualification, person.at().path) == (
        "mara@two-rivers.example",
        "",
        "people/0",
    )
    assert season.value.spans == {Hemisphere.SOUTHERN: (MonthDaySpan(MonthDay(12, 10), MonthDay(1, 20)),)}


def test_who_samples_has_a_base_and_field_days() -> None:
    """Base, hours, weekdays, leave and longest way are read; weekdays come from the practice where not given."""
    data = {
        **DATA,
        "worked_weekdays": ["monday", "saturday"],
        "people": [
            {
                "id": "ned",
                "name": "Ned",
                "role": "sampler",
                "base": {"latitude": -37.3, "longitude": 143},
                "minutes_a_day": 420,
                "weekdays": ["tuesday"],
                "leave": [{"first": "2027-03-08", "last": "2027-03-12", "reason": "away"}],
                "longest_way_km": 120,
            },
            {"id": "una", "name": "Una", "role": "sampler"},
        ],
    }
    ned, una = (person.value for person in build_people(written(data)))
    assert (ned.base, ned.minutes_a_day, ned.weekdays, ned.longest_way_km) == ((143.0, -37.3), 420, (2,), 120)
    assert (ned.leave[0].reason, ned.leave[0].place.path) == ("away", "people/0/leave/0")
    assert (una.base, una.minutes_a_day, una.weekdays, una.leave) == (None, 480, (1, 6), ())


def test_gaps_replace_the_default_of_their_class() -> None:
    """The practice's waiting times replace the engine's class by class; its longer waits are added."""
    default = {
        name: Gap(name, counts=True, months=3, reason="", source="table", place=Place("gaps.yaml"))
        for name in ("lime", "manure")
    }
    practice = build_practice(written(DATA), {}, default, (AnalysisWait("lime", ("ph",), 24, "table"),)).value
    assert {name: gap.months for name, gap in practice.gaps.items()} == {"lime": 4, "manure": 3, "other-amendment": 0}
    assert not practice.gaps["other-amendment"].counts
    assert [wait.months for wait in practice.analysis_waits] == [24, 12]
    assert (practice.night.deadline_s, practice.night.memory_mb) == (60.0, 1024)
    assert (practice.logo, practice.contact) == ("", "")


def test_gaps_of_the_file_alone() -> None:
    """Only those that the practice sets itself are looked at by the rules."""
    assert [gap.value.material_class for gap in build_gaps(written(DATA))] == ["lime", "other-amendment"]
    assert build_gaps(written({})) == ()


def test_a_day_of_the_year() -> None:
    """Month and day are read from text."""
    assert month_day("02-29") == MonthDay(2, 29)


def test_a_laboratory() -> None:
    """Weekdays become ISO numbers in order."""
    data = {
        "name": "North Bench",
        "country": "AU",
        "turnaround_working_days": 8,
        "courier_days": 2,
        "receiving_weekdays": ["thursday", "monday"],
    }
    laboratory = build_laboratory("north-bench", written(data, "laboratories/north-bench.yaml"))
    assert (laboratory.id, laboratory.receiving_weekdays) == ("north-bench", (1, 4))
    assert laboratory.place.file == "laboratories/north-bench.yaml"


def test_a_laboratory_that_names_no_days_receives_from_monday_to_friday() -> None:
    """The key may be left out."""
    data = {"name": "North Bench", "country": "AU", "turnaround_working_days": 8, "courier_days": 2}
    assert build_laboratory("north-bench", written(data, "x.yaml")).receiving_weekdays == (1, 2, 3, 4, 5)


def test_how_field_notes_are_written() -> None:
    """Our own form alone where nothing is said; days with their year first where no form of days is."""
    assert build_practice(written(DATA), {}, {}, ()).value.notes_form is None
    data = {**DATA, "field_notes": {"columns": {"day": "Sample date"}}}
    assert build_practice(written(data), {}, {}, ()).value.notes_form == NotesForm(
        {"day": "Sample date"}, {}, "year-month-day"
    )
