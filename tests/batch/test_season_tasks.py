"""From rows of text to the tasks of the season page."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from soilrota.batch.season_facts import SeasonFacts
from soilrota.batch.season_tasks import season_view
from soilrota.batch.season_wanted import Wanting
from soilrota.documents import PaperLink
from soilrota.language import phrase, spoken
from soilrota.model.windows import Span, State

ROW = {
    "client": "ash",
    "client_name": "Ash Farm",
    "farm": "home",
    "farm_name": "Home",
    "zone": "flat",
    "zone_name": "Flat",
    "protocol": "topsoil",
    "protocol_name": "Topsoil",
    "state": "overdue",
    "season_name": "Late summer",
    "season_first": "2027-01-20",
    "season_last": "2027-03-31",
    "open_days": "2027-01-20/2027-02-10 2027-03-01/2027-03-31",
    "closed_days": "2027-02-11/2027-02-28",
    "planned_spreading": "2027-02-11/2027-02-12",
    "best_day": "2027-02-05",
    "best_day_passed": "no",
    "last_sampled": "2026-02-20",
    "months_overdue": "2",
    "adviser": "Ann Lee",
    "standing": "current",
}
VISIT = {"visit": "ash/home/2", "client": "ash", "farm": "home", "bags": "flat/topsoil/2027-01-20/0-10"}


class _Day:
    """A fact that tells which language is spoken when it is said."""

    def __format__(self, form: str) -> str:
        """Return the language."""
        return format(spoken(), form)


def _facts(*rows: dict[str, str]) -> SeasonFacts:
    """Return facts with one visit that has a day."""
    return SeasonFacts(
        practice="Small Soil Practice",
        rows=rows,
        visits={"ash": (VISIT,)},
        placed=({"visit": "ash/home/2", "day": "2027-02-08", "person": "Cy Dell"},),
        papers={"ash": ("programme.pdf", "field_pack-home-1.pdf", "field_pack-home-2.pdf", "labels-home-2.pdf")},
        shared=("season.csv", "field_calendar.pdf", "field_calendar.csv"),
        wanting=(Wanting("Late", "Ring.", ("one", "two"), 2),),
    )


def test_a_task_with_its_day_and_its_papers() -> None:
    """Every column arrives; day and person come from the field calendar, papers are those of the task's own visit."""
    view = season_view(_facts(ROW))
    (task,) = view.tasks
    assert (task.client, task.farm, task.zone, task.protocol) == ("ash", "Home", "Flat", "Topsoil")
    assert (task.state, task.months_overdue, task.is_current) == (State.OVERDUE, 2, True)
    assert task.season == Span(date(2027, 1, 20), date(2027, 3, 31))
    assert [span.days for span in (*task.open, *task.closed, *task.spreading)] == [22, 31, 18, 2]
    assert (task.best, task.planned, task.person) == (date(2027, 2, 5), date(2027, 2, 8), "Cy Dell")
    assert (task.adviser, task.last_sampled) == ("Ann Lee", date(2026, 2, 20))
    assert task.papers == (
        PaperLink("Field pack", "clients/ash/field_pack-home-2.pdf"),
        PaperLink("Labels", "clients/ash/labels-home-2.pdf"),
    )
    (client,) = view.clients
    assert (client.name, client.papers) == ("Ash Farm", (PaperLink("Programme", "clients/ash/programme.pdf"),))


def test_papers_of_the_practice_that_stand_and_what_else_is_wanted() -> None:
    """Only files that are there are linked, papers before tables."""
    view = season_view(_facts(ROW))
    assert [paper.path for paper in view.papers] == ["field_calendar.pdf", "season.csv"]
    assert [(one.heading, one.count, one.state) for one in view.wanted] == [("Late", 2, None)]


def test_what_is_wanted_is_said_in_the_language_of_the_practice() -> None:
    """The view bears the language; what the night kept in English is said again."""
    late = Wanting("Late", "Ring.", (phrase("due {day}", day=_Day()),), 1)
    view = season_view(replace(_facts(ROW), wanting=(late,), language="es"))
    assert view.language == "es"
    assert view.wanted[0].lines == ("due es",)
    assert season_view(replace(_facts(ROW), wanting=(late,))).wanted[0].lines == ("due en-GB",)


def test_a_row_from_before_a_column_was_there() -> None:
    """A client whose files have errors keeps rows of an older engine; what they lack is not known."""
    view = season_view(_facts({"client": "elm", "zone": "flat"}))
    (task,) = view.tasks
    assert (task.zone, task.state, task.season, task.planned) == ("flat", State.NOT_KNOWN, None, None)
    assert not task.is_current
    assert view.clients[0].name == "elm"
