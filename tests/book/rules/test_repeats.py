"""Things that stand twice."""

from __future__ import annotations

from soilrota.problems import Severity
from tests.book.small_book import Book

ZONE = (
    "{id: ID, name: Other, soil_type: loam, land_use: crop, landscape_position: flat, area_ha: 5, protocols: [topsoil]}"
)


def test_zone_ids(book: Book) -> None:
    """Two zones of a farm do not share an id; the error names the earlier line."""
    book.edit("client.yaml", "id: hill", "id: river-flat")
    problem = book.only()
    assert problem.code == "repeated-id"
    assert f"client.yaml:{book.line('client.yaml', 'id: river-flat')}" in problem.found


def test_zones_of_two_farms_may_share_an_id(book: Book) -> None:
    """A zone's id is unique on its farm only."""
    zone = ZONE.replace("ID", "hill")
    book.add("client.yaml", f"  - {{id: away, name: Away, zones: [{zone}]}}\n")
    assert book.problems() == ()


def test_farm_and_protocol_ids(book: Book) -> None:
    """Farms, and the client's own protocols, have different ids."""
    zone = ZONE.replace("ID", "top")
    book.add("client.yaml", f"  - {{id: home, name: Away, zones: [{zone}]}}\n")
    book.add("client.yaml", "protocols: [{id: own, based_on: topsoil}, {id: own, based_on: topsoil}]\n")
    assert [problem.code for problem in book.problems()] == ["repeated-id", "repeated-id"]


def test_shared_ids(book: Book) -> None:
    """People, seasons and waiting times of the practice stand once."""
    book.edit("practice.yaml", "id: jo-finch", "id: mara-ellis")
    book.edit("practice.yaml", "id: midwinter", "id: late-summer")
    book.add("practice.yaml", "  - {class: manure, months: 5}\n")
    assert [problem.code for problem in book.shared_problems()] == ["repeated-id"] * 3


def test_bags(book: Book) -> None:
    """One bag is one row; rows without a bag id are no repeats of each other."""
    book.write(
        "field_notes.csv",
        "day,farm,zone,protocol,top_cm,bottom_cm,cores,soil_state,sampler,bag,note\n"
        "2026-02-20,home,river-flat,topsoil,0,10,25,moist,Jo,B1,\n"
        "2026-02-20,home,hill,topsoil,0,10,25,moist,Jo,B1,\n"
        "2026-02-20,home,hill,topsoil,0,10,25,moist,Jo,,\n"
        "2026-02-21,home,hill,topsoil,0,10,25,moist,Jo,,\n",
    )
    problem = book.only()
    assert (problem.code, problem.place.line, problem.severity) == ("bag-repeated", 3, Severity.WARNING)


def test_the_map_draws_a_zone_once(book: Book) -> None:
    """A zone drawn by two features is an error at the second."""
    feature = (
        '{"type": "Feature", "properties": {"kind": "zone", "farm": "home", "zone": "hill"}, "geometry":'
        ' {"type": "Polygon", "coordinates": [[[145.0, -37.0], [145.00319, -37.0], [145.00319, -36.99745],'
        " [145.0, -36.99745], [145.0, -37.0]]]}}"
    )
    book.write("map.geojson", f'{{"type": "FeatureCollection", "features": [\n{feature},\n{feature}\n]}}\n')
    problem = book.only()
    assert (problem.code, problem.place.line) == ("drawn-twice", 3)


def test_headings_of_another_form(book: Book) -> None:
    """Two of our columns under one heading, and one word for two states, are errors at the second."""
    book.add(
        "practice.yaml",
        "field_notes:\n"
        "  columns:\n"
        "    day: Sample date\n"
        "    zone: Paddock\n"
        "    farm: Paddock\n"
        "  soil_state:\n"
        "    Damp: moist\n"
        "    damp: wet\n",
    )
    problems = book.shared_problems()
    assert [(one.code, one.place.line) for one in problems] == [
        ("mapped-twice", book.line("practice.yaml", "farm: Paddock")),
        ("mapped-twice", book.line("practice.yaml", "damp: wet")),
    ]
    assert "'Paddock' stands already at practice.yaml" in problems[0].found


def test_a_value_that_stands_twice(book: Book) -> None:
    """Two rows of one bag, report and issue are warned of at the second; another issue, bag or report is no repeat."""
    head = (
        "report,sampled,reported,farm,zone,protocol,bag,top_cm,bottom_cm,analyte,method,qualifier,value,unit,laboratory"
    )
    rows = ["r1,B1,1", "r1,B1,2", "r1,B2,1", "r2,B1,1", "r1,b1,2"]
    lines = [
        f"{report},2026-02-20,2026-03-05,home,hill,topsoil,{bag},0,10,phosphorus,colwell,,31,mg/kg,north-bench,{issue}"
        for report, bag, issue in (row.split(",") for row in rows)
    ]
    book.write("records/results/anvil-creek/r1.csv", "\n".join([f"{head},issue", *lines]) + "\n")
    problem = book.only()
    assert (problem.code, problem.place.line, problem.severity) == ("result-repeated", 6, Severity.WARNING)
