"""From visits to the values of a field pack."""

from __future__ import annotations

from datetime import date

import pytest

from soilrota.bag_ids import bag_id
from soilrota.batch.counts import counts_for
from soilrota.batch.layouts import layouts_for
from soilrota.batch.pack_values import PackGrounds, field_pack
from soilrota.batch.values import VisitRow
from soilrota.batch.visit_rows import bags_of, visit_rows
from soilrota.model.field_pack import Bag
from soilrota.model.issued import Issued
from soilrota.timing import visits_of, visits_to_place
from tests.documents.made import AS_OF, CLIENTS, answers, example

PLACED = {"visit": "", "day": "2027-02-22", "person": "Ned Marlow"}


def _grounds(name: str) -> tuple[PackGrounds, tuple[VisitRow, ...]]:
    """Return what the packs of an example client are made of, and the rows of its visits."""
    client = example(name)
    windows = answers(client)[1]
    visits = visits_of(client, windows)
    rows = visit_rows(client, visits, visits_to_place(client, visits, windows), windows, AS_OF)
    wanted = [bag for row in rows for bag in bags_of(row)]
    bags = [
        Bag(bag_id(one), bag.farm, bag.zone, bag.protocol, bag.season, bag.top_cm, bag.bottom_cm)
        for one, bag in enumerate(wanted, start=1)
    ]
    keys = [window.key for window in windows]
    of_windows = {window.key: window for window in windows}
    layouts = layouts_for(client, Issued(), keys)
    return PackGrounds(client, of_windows, dict.fromkeys(keys), layouts, counts_for(client, keys), bags), rows


@pytest.mark.parametrize("name", CLIENTS)
def test_a_pack_holds_the_tasks_of_its_visit(name: str) -> None:
    """Each task once, in its zone, with a bag a layer and its letter on the farm's map."""
    grounds, rows = _grounds(name)
    for row in rows:
        pack = field_pack(grounds, row, {**PLACED, "visit": row["visit"]})
        assert (pack.farm.id, pack.day, pack.person) == (row["farm"], date(2027, 2, 22), "Ned Marlow")
        assert f"{name}/{row['farm']}/{pack.number}" == row["visit"]
        tasks = [(zone.zone.id, task.protocol.id) for zone in pack.zones for task in zone.tasks]
        assert sorted(tasks) == sorted({(bag.zone, bag.protocol) for bag in bags_of(row)})
        for zone in pack.zones:
            assert pack.farm.zones["ABCDEFGHIJKLMNOPQRSTUVWXYZ".index(zone.letter)] == zone.zone
            for task in zone.tasks:
                depths = [(layer.top_cm, layer.bottom_cm) for layer in task.layers]
                assert [(bag.top_cm, bag.bottom_cm) for bag in task.bags] == depths
                assert all(bag.id for bag in task.bags)
        drawn = any(task.layout and task.layout.walk for zone in pack.zones for task in zone.tasks)
        assert (pack.walk_m is not None and pack.walk_m > 0) == drawn


def test_without_the_field_calendar_the_farms_own_plan_counts() -> None:
    """The day that the visit aims at, and nobody's name."""
    grounds, rows = _grounds("anvil-creek")
    pack = field_pack(grounds, rows[0], None)
    assert (pack.day.isoformat(), pack.person) == (rows[0]["preferred"], "")
