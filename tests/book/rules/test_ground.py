"""Maps: each mistake drawn by hand beside a farm of about 100 ha."""

from __future__ import annotations

import json
from typing import Any

import pytest

from soilrota.problems import Severity
from tests.book.small_book import Book

#: A degree of latitude is about 111 km, of longitude at 37 degrees south about 89 km: 0.001 x 0.001 is 0.98 ha.
WEST, SOUTH = 145.0, -37.0
HA = 0.9876


def box(west: float, south: float, east: float, north: float) -> list[list[list[float]]]:
    """Return the ring of a box, in thousandths of a degree from the farm's corner."""
    corners = [(west, south), (east, south), (east, north), (west, north), (west, south)]
    return [[[round(WEST + x / 1000, 9), round(SOUTH + y / 1000, 9)] for x, y in corners]]


def feature(kind: str, coordinates: Any, shape: str = "Polygon", **properties: object) -> dict[str, Any]:
    """Return one feature of farm `home`."""
    return {
        "type": "Feature",
        "properties": {"kind": kind, "farm": "home", **properties},
        "geometry": {"type": shape, "coordinates": coordinates},
    }


FARM = feature("farm", box(0, 0, 10, 10))
FLAT = feature("zone", box(0, 0, 3, 4), zone="river-flat")
HILL = feature("zone", box(3, 0, 5, 4), zone="hill")


def swapped(one: dict[str, Any]) -> dict[str, Any]:
    """Return the feature with latitude before longitude."""
    rings = [[[y, x] for x, y in ring] for ring in one["geometry"]["coordinates"]]
    return {**one, "geometry": {**one["geometry"], "coordinates": rings}}


def draw(book: Book, *features: dict[str, Any]) -> None:
    """Write the map, one feature a line from line 2 on."""
    lines = ",\n".join(json.dumps(one) for one in features)
    book.write("map.geojson", f'{{"type": "FeatureCollection", "features": [\n{lines}\n]}}\n')


def test_a_map_without_mistakes(book: Book) -> None:
    """Zones that share an edge inside their farm are fine, and take their area from the map."""
    book.edit("client.yaml", "        area_ha: 8\n", "")
    draw(
        book,
        FARM,
        FLAT,
        HILL,
        feature("access", [145.001, -36.999], "Point"),
        feature("avoid", [[145.0, -37.0], [145.001, -36.999]], "LineString", **{"class": "fence"}, buffer_m=10),
    )
    client, problems = book.client()
    assert problems == ()
    assert client is not None
    farm = client.farms[0]
    assert farm.zones[1].area_ha == pytest.approx(8 * HA, rel=5e-3)
    assert farm.zones[0].area_ha == 11.8
    assert farm.access == (145.001, -36.999)
    assert (farm.avoided[0].kind, farm.avoided[0].shape, farm.avoided[0].buffer_m) == ("fence", "line", 10.0)
    assert farm.boundary is not None


@pytest.mark.parametrize(
    ("stated", "severity"), [("8.1", None), ("8.6", Severity.WARNING), ("12", Severity.ERROR), ("4", Severity.ERROR)]
)
def test_stated_and_drawn_areas(book: Book, stated: str, severity: Severity | None) -> None:
    """Over 5 % apart is a warning, over 20 % an error, at the stated area."""
    book.edit("client.yaml", "area_ha: 8\n", f"area_ha: {stated}\n")
    draw(book, HILL)
    problems = book.problems()
    assert [(problem.code, problem.severity) for problem in problems] == (
        [("area-differs", severity)] if severity else []
    )
    assert all(problem.place.line == book.line("client.yaml", f"area_ha: {stated}") for problem in problems)


@pytest.mark.parametrize(
    ("west", "severity"), [(-0.001, None), (-0.05, Severity.WARNING), (-1.5, Severity.ERROR), (20, Severity.ERROR)]
)
def test_a_zone_outside_its_farm(book: Book, west: float, severity: Severity | None) -> None:
    """The thickness of a line is let through, a strip is a warning, a part is an error."""
    draw(book, FARM, feature("zone", box(west, 0, west + 3, 4), zone="river-flat"))
    assert [problem.severity for problem in book.problems()] == ([severity] if severity else [])


def test_a_map_with_latitude_first(book: Book) -> None:
    """Latitude first leaves the Earth or the hemisphere; the mend says so."""
    book.edit("client.yaml", "hemisphere: southern", "hemisphere: northern")
    book.edit("client.yaml", "        area_ha: 8\n", "")
    british = feature("zone", [[[0.1, 52.2], [0.103, 52.2], [0.103, 52.204], [0.1, 52.204], [0.1, 52.2]]], zone="hill")
    farm = feature("farm", [[[0.1, 52.2], [0.11, 52.2], [0.11, 52.21], [0.1, 52.21], [0.1, 52.2]]])
    draw(book, farm, swapped(british))
    problem = book.only()
    assert (problem.code, problem.place.line) == ("zone-outside-farm", 3)
    assert "longitude before latitude" in problem.mend


def test_the_wrong_side_of_the_equator(book: Book) -> None:
    """A southern client's zone in the north is an error; with swapped coordinates the mend names the swap."""
    draw(book, feature("zone", [[[-37.0, 65.0], [-36.997, 65.0], [-36.997, 65.004], [-37.0, 65.0]]], zone="hill"))
    problem = book.only()
    assert problem.code == "wrong-hemisphere"
    assert "longitude before latitude" in problem.mend
    draw(book, feature("access", [145.0, 37.0], "Point"))
    assert "hemisphere" in book.only().mend


def test_a_fixed_point_lies_in_its_zone(book: Book) -> None:
    """Outside it is a warning at the point; its zone must be there, and has one of them."""
    inside = feature("fixed-point", [145.001, -36.998], "Point", zone="river-flat", name="By the trough")
    draw(book, FARM, FLAT, HILL, inside)
    client, problems = book.client()
    assert [one for one in problems if one.code != "area-differs"] == []
    assert client is not None
    assert [zone.fixed_point for zone in client.farms[0].zones] == [(145.001, -36.998), None]
    draw(book, FARM, FLAT, feature("fixed-point", [145.004, -36.998], "Point", zone="river-flat"))
    problem = book.only()
    assert (problem.code, problem.severity, problem.place.line) == ("fixed-point-outside-zone", Severity.WARNING, 4)
    assert problem.found == (
        "the fixed point of zone river-flat lies outside it, at longitude 145.004000, latitude -36.998000"
    )
    draw(book, FLAT, inside, inside)
    twice = book.only()
    assert (twice.code, twice.place.line) == ("drawn-twice", 4)
    assert twice.found.startswith("the fixed point of home/river-flat stands already at")
    draw(book, FLAT, feature("fixed-point", [145.001, -36.998], "Point", zone="river-flats"))
    assert (book.only().code, book.only().mend) == ("unknown-zone", "write river-flat")


def test_zones_that_overlap(book: Book) -> None:
    """A hair's breadth is let through; a strip of 1 % is an error at the later zone."""
    draw(book, feature("zone", box(0, 0, 3.001, 4), zone="river-flat"), HILL)
    assert book.problems() == ()
    draw(book, feature("zone", box(0, 0, 3.03, 4), zone="river-flat"), HILL)
    problem = book.only()
    assert (problem.code, problem.place.line) == ("zones-overlap", 3)


def test_an_outline_that_crosses_itself(book: Book) -> None:
    """The error names the position where the ring crosses itself."""
    tie = [[[145.0, -37.0], [145.004, -36.996], [145.004, -37.0], [145.0, -36.996], [145.0, -37.0]]]
    draw(book, FARM, feature("zone", tie, zone="hill"))
    problem = book.only()
    assert (problem.code, problem.place.line) == ("outline-crosses-itself", 3)
    assert "longitude 145.002000, latitude -36.998000" in problem.found


def test_an_outline_far_too_large(book: Book) -> None:
    """One corner of a wrong degree makes a zone of hundreds of kilometres."""
    draw(book, feature("zone", [[[145.0, -37.0], [145.003, -37.0], [154.003, -36.996], [145.0, -37.0]]], zone="hill"))
    assert book.only().code == "outline-too-large"


def test_a_ring_that_is_not_closed(book: Book) -> None:
    """RFC 7946 closes rings; an open one is an error and hides no other problem."""
    draw(book, feature("zone", [[[145.0, -37.0], [145.003, -37.0], [145.003, -36.996], [145.0, -36.996]]], zone="hill"))
    assert {problem.code for problem in book.problems()} == {"ring-not-closed"}


def test_a_place_far_from_its_farm(book: Book) -> None:
    """An access point tens of kilometres away belongs to another farm, or is a slip."""
    draw(book, FARM, feature("access", [145.5, -37.0], "Point"))
    problem = book.only()
    assert (problem.code, problem.place.line) == ("far-from-farm", 3)
    draw(book, FARM, feature("access", [145.02, -37.0], "Point"))
    assert book.problems() == ()


@pytest.mark.parametrize(("width", "mixed"), [(0.15, False), (0.4, True)])
def test_a_zone_on_two_soils(book: Book, width: float, mixed: bool) -> None:
    """A zone of which more than a tenth lies on another soil unit is mixed, with the share; its own soil is not."""
    draw(
        book,
        HILL,
        feature("soil", box(0, 0, 3 + width, 4), soil_type="yellow sand"),
        feature("soil", box(3, 0, 5, 4), soil_type="Red loam"),
    )
    found = [problem.found for problem in book.problems()]
    assert bool(found) is mixed
    assert all("yellow sand on 20%" in text for text in found)


def test_other_units_of_ground(book: Book) -> None:
    """Differing land use and landscape position make a zone mixed too, and the client still loads."""
    draw(
        book,
        HILL,
        feature("land-use", box(3, 0, 4, 4), land_use="crop"),
        feature("landscape", box(4, 0, 5, 4), landscape_position="hollow"),
    )
    client, problems = book.client()
    assert client is not None
    assert "crop on 50%, hollow on 50%" in problems[0].found
