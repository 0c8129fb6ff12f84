"""Visits that are near, bags that are late, reports."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from soilrota.delivery.farm_events import bag_events, farm_name, report_events, task_name, visit_events, visit_name
from soilrota.model.intake import MissingBag
from soilrota.model.reminder_choices import LeadTimes, ReminderKind
from soilrota.model.reminders import ReportState, Said, TaskName
from soilrota.model.windows import TaskKey
from tests.delivery.reminding import NIGHT, anvil, signed, visit

TIMES = LeadTimes()


def bag(due: date | None, name: str = "B1", since: date = NIGHT - timedelta(days=30)) -> MissingBag:
    """Return a bag of the home block that is not back."""
    return MissingBag("anvil-creek", "home", "barn", "topsoil-pasture", name, 0, 10, since, due, "north-bench")


def test_names() -> None:
    """Names are those of the client's file; ids stand where nothing is declared any more."""
    assert task_name(anvil(), TaskKey("home", "barn", "topsoil-pasture")) == TaskName("Barn", "Topsoil under pasture")
    assert task_name(anvil(), TaskKey("home", "old", "gone")) == TaskName("old", "gone")
    assert (farm_name(anvil(), "home"), farm_name(anvil(), "sold")) == ("Home block", "sold")


def test_a_visit_is_said_when_it_is_near() -> None:
    """A week before its day and until it, where somebody is placed."""
    for days, said in ((8, 0), (7, 1), (0, 1), (-1, 0)):
        assert len(list(visit_events(anvil(), [visit(NIGHT + timedelta(days=days))], NIGHT, TIMES))) == said
    assert not list(visit_events(anvil(), [visit(NIGHT, "")], NIGHT, TIMES))
    (one,) = visit_events(anvil(), [visit(NIGHT)], NIGHT, TIMES)
    assert (one.facts["who"], one.person, one.day) == ("Ned Marlow", "ned-marlow", NIGHT)
    assert one.facts["contacts"] == ("Jo Tern (manager), +61 3 5550 0111",)


def test_a_visit_that_moved_far_off_is_said_at_once() -> None:
    """Who expects it this week hears that it is next month now; of a day that has passed nothing is expected."""
    far = visit(NIGHT + timedelta(days=30))
    told = Said(
        "jo@anvil-creek.example", visit_name(anvil(), far), NIGHT + timedelta(days=2), NIGHT - timedelta(days=3)
    )
    assert not list(visit_events(anvil(), [far], NIGHT, TIMES))
    (event,) = visit_events(anvil(), [far], NIGHT, TIMES, [told])
    assert event.day == NIGHT + timedelta(days=30)
    over = replace(told, day=NIGHT - timedelta(days=1))
    assert not list(visit_events(anvil(), [far], NIGHT, TIMES, [over]))


def test_a_visit_keeps_its_name_when_it_moves() -> None:
    """Another day, and a task more, leave the name as it is."""
    names = {
        visit_name(anvil(), one)
        for one in (visit(NIGHT), visit(NIGHT + timedelta(days=4), "ruth-aske", "ridge", "barn"))
    }
    assert len(names) == 1


def test_bags_are_late_by_farm_and_day() -> None:
    """Bags of one day are one event; those not late yet, without a due day, or of others, are none."""
    late, soon = NIGHT - timedelta(days=3), NIGHT - timedelta(days=2)
    found = list(bag_events(anvil(), [bag(late), bag(late, "B2"), bag(soon, "B3"), bag(None, "B4")], NIGHT, TIMES))
    assert [(one.facts["count"], one.facts["bags"], one.repeats) for one in found] == [(2, ("B1", "B2"), True)]


def test_an_old_report_is_no_news() -> None:
    """A report is said for two months after it was signed."""
    for days, kinds in ((60, [ReminderKind.REPORT]), (61, [])):
        report = ReportState(signed(NIGHT - timedelta(days=days)), NIGHT)
        assert [one.kind for one in report_events(anvil(), report, NIGHT, TIMES)] == kinds
    changed = ReportState(signed(NIGHT, changed=("results of Barn changed",)), NIGHT)
    (draft,) = report_events(anvil(), changed, NIGHT, TIMES)
    assert draft.facts["changed"] == ("results of Barn changed",)
    assert not list(report_events(anvil(), None, NIGHT, TIMES))
