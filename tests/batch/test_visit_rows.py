"""Visits to rows and back."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from soilrota.batch.visit_rows import bags_of, visit_rows, visits_from
from soilrota.model.windows import Span
from soilrota.timing import visits_of, visits_to_place
from soilrota.timing.spans import clip
from tests.documents.made import AS_OF, CLIENTS, answers, example


@pytest.mark.parametrize("name", CLIENTS)
def test_rows_give_the_visits_back(name: str) -> None:
    """From the same day on, everything is as it was; from a later day on, earlier days are gone."""
    client = example(name)
    windows = answers(client)[1]
    visits = visits_of(client, windows)
    placed = visits_to_place(client, visits, windows)
    rows = visit_rows(client, visits, placed, windows, AS_OF)
    assert visits_from(rows, AS_OF) == placed
    later = date(2027, 3, 3)
    assert visits_from(rows, later) == tuple(replace(one, spans=clip(one.spans, first=later)) for one in placed)


def test_a_row_stands_still_while_its_window_is_open() -> None:
    """A span that is open already is written with an open start, whatever the night."""
    client = example("glen-tarn")
    windows = answers(client)[1]
    visits = visits_of(client, windows)
    (first, *others) = visits_to_place(client, visits, windows)
    days = [replace(first, spans=(Span(day, date(2027, 3, 31)),)) for day in (date(2027, 2, 15), date(2027, 2, 16))]
    one, other = (
        visit_rows(client, visits, (visit, *others), windows, day)[0]["days"]
        for visit, day in zip(days, (date(2027, 2, 15), date(2027, 2, 16)), strict=True)
    )
    assert one == other == "../2027-03-31"


def test_a_farm_that_the_map_does_not_show_has_no_place() -> None:
    """Empty cells come back as no position."""
    client = example("glen-tarn")
    windows = answers(client)[1]
    visits = visits_of(client, windows)
    placed = tuple(replace(one, position=None) for one in visits_to_place(client, visits, windows))
    rows = visit_rows(client, visits, placed, windows, AS_OF)
    assert {row["longitude"] for row in rows} == {""}
    assert visits_from(rows, AS_OF) == placed


def test_a_bag_a_layer() -> None:
    """Bags come back with their task, the first day of their season and their depth; ids are given out later."""
    client = example("juniper-start")
    windows = answers(client)[1]
    visits = visits_of(client, windows)
    rows = visit_rows(client, visits, visits_to_place(client, visits, windows), windows, AS_OF)
    bags = [bag for row in rows for bag in bags_of(row)]
    tasks = [key for of_farm in visits for visit in of_farm.plan.visits for key in visit.tasks]
    layers = [(key, layer) for key in tasks for layer in client.protocols[key.protocol].layers]
    assert [(bag.farm, bag.zone, bag.protocol, bag.top_cm, bag.bottom_cm) for bag in bags] == [
        (key.farm, key.zone, key.protocol, layer.top_cm, layer.bottom_cm) for key, layer in layers
    ]
    seasons = {window.key: window.season.span.first.isoformat() for window in windows}
    assert [bag.season for bag in bags] == [seasons[key] for key, _ in layers]
    assert {bag.id for bag in bags} == {""}
