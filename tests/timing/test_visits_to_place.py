"""Visits of the example book as the field calendar takes them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.model.windows import Rule, Span
from soilrota.timing import visits_of, visits_to_place
from soilrota.timing.visits_to_place import place_of
from tests.documents.made import CLIENTS, answers, example


def _days(spans: tuple[Span, ...]) -> set[int]:
    """Return the days of spans as whole numbers."""
    return {day for span in spans for day in range(span.first.toordinal(), span.last.toordinal() + 1)}


@pytest.mark.parametrize("name", CLIENTS)
def test_each_visit_keeps_its_work_and_has_only_days_that_all_its_tasks_share(name: str) -> None:
    """Same visits in the same order; a visit has exactly the days on which each of its tasks is workable."""
    client = example(name)
    windows = answers(client)[1]
    by_key = {window.key: window for window in windows}
    visits = visits_of(client, windows)
    days = [visit for of_farm in visits for visit in of_farm.plan.visits]
    placed = visits_to_place(client, visits, windows)
    assert [one.minutes for one in placed] == [visit.minutes for visit in days]
    assert len({one.id for one in placed}) == len(placed)
    for one, visit in zip(placed, days, strict=True):
        assert any(visit.day in span for span in one.spans)
        shared = set.intersection(*(_days(by_key[key].workable) for key in visit.tasks))
        assert _days(one.spans) == shared


def test_a_visit_aims_at_its_day_unless_a_best_day_has_passed() -> None:
    """The farm's own plan decides; where a best day has passed, the day once aimed at does."""
    for name in CLIENTS:
        client = example(name)
        windows = answers(client)[1]
        visits = visits_of(client, windows)
        passed = {
            window.key for window in windows if any(reason.rule is Rule.BEST_DAY_PASSED for reason in window.reasons)
        }
        days = [visit for of_farm in visits for visit in of_farm.plan.visits]
        for one, visit in zip(visits_to_place(client, visits, windows), days, strict=True):
            assert one.preferred == visit.day or (passed & set(visit.tasks) and one.preferred < visit.day)


def test_where_a_farm_is() -> None:
    """Its way in; else the middle of what the map draws; nowhere without a map."""
    farm = example("anvil-creek").farms[0]
    assert place_of(farm) == farm.access
    middle = place_of(replace(farm, access=None))
    assert middle is not None
    assert farm.access is not None
    assert max(abs(one - other) for one, other in zip(middle, farm.access, strict=True)) < 0.05
    bare = replace(farm, access=None, boundary=None, zones=tuple(replace(zone, outline=None) for zone in farm.zones))
    assert place_of(bare) is None
