"""Who was told of a visit is told that it is off, once, and only where that is so."""

from __future__ import annotations

from datetime import timedelta

from soilrota.delivery.farm_events import visit_name
from soilrota.delivery.gathering import due
from soilrota.delivery.gone_visits import gone_visits
from soilrota.model.reminders import PlannedVisit, Reminder, Said
from tests.delivery.reminding import NIGHT, anvil, visit, window

DAY = NIGHT + timedelta(days=4)
NAME = visit_name(anvil(), visit(DAY))
TOLD = [
    Said(person, NAME, DAY, NIGHT - timedelta(days=2))
    for person in ("jo@anvil-creek.example", "ned@merrow-tarn.example")
]


def gone(*visits: PlannedVisit, windows: tuple[object, ...] = (), said: list[Said] = TOLD) -> list[Reminder]:
    """Return who is told that the visit is off."""
    return list(gone_visits(anvil(), windows, visits, said, NIGHT))  # type: ignore[arg-type]


def test_a_visit_that_is_gone_is_said_to_all_who_knew() -> None:
    """Contact and crew member are told; it is new to them now, and not the night after."""
    found = gone()
    assert {one.to.person for one in found} == {one.person for one in TOLD}
    assert len(due(found, TOLD, NIGHT)) == 2
    said = [*TOLD, *(Said(one.to.person, one.event.name, one.event.day, NIGHT) for one in found)]
    assert list(gone_visits(anvil(), (), (), said, NIGHT + timedelta(days=1))) == []


def test_a_visit_that_stands_or_moved_is_not_off() -> None:
    """The same day, another day, one task fewer: it is still planned."""
    assert gone(visit(DAY)) == gone(visit(DAY + timedelta(days=9))) == gone(visit(DAY, "ned-marlow", "ridge")) == []


def test_who_is_relieved_is_told() -> None:
    """Another crew member goes: the first one is told, the contact is not."""
    assert [one.to.id for one in gone(visit(DAY, "ruth-aske"))] == ["ned-marlow"]


def test_nothing_is_said_of_days_that_passed_or_samples_that_were_taken() -> None:
    """A day that is over is no visit to come, and what was sampled was not called off."""
    assert gone(said=[Said("jo@anvil-creek.example", NAME, NIGHT - timedelta(days=1), NIGHT - timedelta(days=5))]) == []
    barn = window(NIGHT)
    assert barn.last_sampling is not None
    taken = barn._replace(last_sampling=barn.last_sampling.__class__(NIGHT, None, (), barn.last_sampling.place))
    assert gone(windows=(taken,)) == []
