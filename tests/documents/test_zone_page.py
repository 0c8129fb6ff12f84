"""The page of one zone under one protocol."""

from __future__ import annotations

from dataclasses import replace

from soilrota.documents.pack_views import ZonePage
from soilrota.documents.zone_page import point_columns, zone_page
from soilrota.model.field_pack import PackTask, PackZone
from soilrota.model.layout import Pattern
from soilrota.model.protocol import Layer
from tests.documents.made import example
from tests.documents.packs import a_layout, a_task, a_visit, moved, no_points

CLIENT = example("brolga-plains")
FARM = CLIENT.farms[0]
ZONE = FARM.zones[0]
TOP, DEEP = CLIENT.protocols["topsoil-crop"], CLIENT.protocols["deep-nitrogen"]


def page_of(task: PackTask, zone: object = ZONE) -> ZonePage:
    """Return the page of a task."""
    one = PackZone("A", zone, (task,))  # type: ignore[arg-type]
    return zone_page(a_visit(CLIENT, FARM, (one,)), one, task)[0]


def points(page: ZonePage) -> list[str]:
    """Return the numbers of the points of a page, in reading order."""
    return [row.number for column in (*page.columns, *page.more) for row in column]


def test_points_run_down_their_columns() -> None:
    """In walking order, in degrees with six decimals, with the depth taken there."""
    layout = a_layout(ZONE, FARM, DEEP.layers, Pattern.STRATA)
    page = page_of(a_task(CLIENT, FARM, ZONE, DEEP, layout=layout))
    assert points(page) == [str(number) for number in range(1, 26)]
    first = page.columns[0][0]
    assert first.latitude == f"{layout.points[0].position[1]:.6f}"
    assert {row.depth for column in page.columns for row in column} == {"0–10", "0–60"}
    assert {row.mark for column in page.columns for row in column} == {"circle filled", "square filled"}
    assert page.more == ()


def test_in_row_points_say_so() -> None:
    """By a word and a hollow mark."""
    layout = a_layout(ZONE, FARM, TOP.layers)
    banded = replace(layout, points=tuple(replace(one, in_row=one.number == 9) for one in layout.points))
    page = page_of(a_task(CLIENT, FARM, ZONE, TOP, layout=banded))
    row = page.columns[0][8]
    assert (row.number, row.mark) == ("9 row", "circle hollow")


def test_more_than_sixty_points_go_on() -> None:
    """The first sixty stay on the page."""
    protocol = replace(TOP, layers=(Layer(0, 10, 75),))
    page = page_of(a_task(CLIENT, FARM, ZONE, protocol, layout=a_layout(ZONE, FARM, protocol.layers, Pattern.STRATA)))
    assert points(page) == [str(number) for number in range(1, 76)]
    assert sum(len(column) for column in page.columns) == 60
    assert page.more_points == "points 61 to 75"


def test_bags_stand_with_their_layers() -> None:
    """One row a bag; what must be ticked before a deep core only there."""
    page = page_of(a_task(CLIENT, FARM, ZONE, DEEP, layout=a_layout(ZONE, FARM, DEEP.layers)))
    assert [(row.bag, row.depth, row.cores) for row in page.layers] == [
        ("B0001-0", "0–10 cm", "25 cores"),
        ("B0001-1", "10–30 cm", "8 cores"),
        ("B0001-2", "30–60 cm", "8 cores"),
    ]
    assert "Buried services" in page.before[0]
    assert page_of(a_task(CLIENT, FARM, ZONE, TOP, layout=a_layout(ZONE, FARM, TOP.layers))).before == ()


def test_reasons_moves_and_counts_are_said_on_the_page_or_behind() -> None:
    """Nothing that is known is left out."""
    layout = a_layout(ZONE, FARM, TOP.layers)
    task = a_task(CLIENT, FARM, ZONE, TOP, layout=replace(layout, moved=moved(layout, 2)))
    one = PackZone("A", ZONE, (task,))
    page, elsewhere = zone_page(a_visit(CLIENT, FARM, (one,)), one, task)
    said = " ".join((*page.beside, *page.below, *elsewhere))
    assert "Moved since the last sampling: points 2 (5 m), 1 (4 m)." in said
    assert "Cores keep 10 m from the edge and away from 2 places" in said
    assert "25 cores give the zone's mean of phosphorus" in said


def test_no_map_and_no_ground() -> None:
    """Each says so, and what to do."""
    without = page_of(a_task(CLIENT, FARM, ZONE, TOP), replace(ZONE, outline=None))
    assert without.map == ""
    assert without.below[0].startswith("The map does not draw this zone")
    assert points(without) == []
    nothing = page_of(a_task(CLIENT, FARM, ZONE, TOP, layout=no_points(ZONE)))
    said = (*nothing.beside, *nothing.below)
    assert said[0].startswith("No cores here")
    assert said[1].startswith("No ground is left")
    assert nothing.moisture == ()


def test_columns_are_even() -> None:
    """Seven points are three, three and one; none is nothing."""
    layout = a_layout(ZONE, FARM, (Layer(0, 10, 7),))
    task = a_task(CLIENT, FARM, ZONE, TOP)
    assert [len(column) for column in point_columns(layout.points, task, "en-GB")] == [3, 3, 1]
    assert point_columns((), task, "en-GB") == ()
