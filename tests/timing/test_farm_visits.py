"""Visits of the example book's farms."""

from __future__ import annotations

from datetime import timedelta

import pytest

from soilrota.model.windows import State
from soilrota.timing import visits_of
from tests.documents.made import CLIENTS, answers, example


@pytest.mark.parametrize("name", CLIENTS)
def test_every_task_that_wants_a_day_has_one_it_can_use(name: str) -> None:
    """Each goes to one visit, on a worked day of its window; settled tasks go to none; every number is proven."""
    client = example(name)
    windows = {window.key: window for window in answers(client)[1]}
    settled = {State.BAGS_OUT, State.RESULTS_IN, State.NOT_KNOWN, State.NO_DAY_LEFT}
    wanting = {key for key, window in windows.items() if window.state not in settled}
    placed = []
    for farm in visits_of(client, tuple(windows.values())):
        assert farm.plan.proven
        for visit in farm.plan.visits:
            assert visit.minutes > 0
            for key in visit.tasks:
                placed.append(key)
                assert key.farm == farm.farm
                assert any(visit.day in span for span in windows[key].workable)
    assert sorted(placed, key=str) == sorted(wanting, key=str)


def test_tasks_of_one_zone_share_a_visit_where_they_can() -> None:
    """Topsoil and acidity on the ridge are open together, and that is offered."""
    client = example("anvil-creek")
    home = visits_of(client, answers(client)[1])[0]
    (group,) = home.sharing
    assert {key.protocol for key in group.keys} == {"topsoil-pasture", "acidity-profile"}
    assert group.spans[0].first >= answers(client)[1][0].season.span.first - timedelta(days=1)


def test_the_order_of_windows_changes_nothing() -> None:
    """The same visits, however the windows come."""
    client = example("anvil-creek")
    windows = answers(client)[1]
    assert visits_of(client, windows[::-1]) == visits_of(client, windows)
