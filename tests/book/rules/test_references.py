"""References that lead nowhere, each with the nearest name that leads somewhere."""

from __future__ import annotations

import pytest

from tests.book.small_book import Book

TARGET = (
    "targets: [{analyte: phosphorus, method: colwell, unit: mg/kg, low: 28, top_cm: 0, bottom_cm: 10,"
    " source: house, zones: [home/river-flats]}]\n"
)
NOTES = "day,farm,zone,protocol,top_cm,bottom_cm,cores,soil_state,sampler,bag,note\n"


@pytest.mark.parametrize(
    ("old", "new", "code", "nearest"),
    [
        ("adviser: mara-ellis", "adviser: mara-elis", "unknown-adviser", "mara-ellis"),
        ("adviser: mara-ellis", "adviser: jo-finch", "not-an-adviser", "role"),
        ("protocols: [topsoil]", "protocols: [topsoils]", "unknown-protocol", "topsoil"),
    ],
)
def test_names_in_the_client_file(book: Book, old: str, new: str, code: str, nearest: str) -> None:
    """An adviser and a protocol that do not exist are found where they are named."""
    book.edit("client.yaml", old, new)
    problem = book.only()
    assert problem.code == code
    assert problem.place.line == book.line("client.yaml", new)
    assert nearest in problem.mend


@pytest.mark.parametrize(
    ("text", "code"),
    [
        (
            TARGET,
            "unknown-zone",
        ),
        ("decisions: [{protocol: topsoil, day: 2027-03-20, what: order, zones: [home/river-flats]}]\n", "unknown-zone"),
        ("decisions: [{protocol: topsail, day: 2027-03-20, what: order}]\n", "unknown-protocol"),
        ("gap_overrides: [{class: lime, months: 2, reason: agreed, zones: [home/river-flats]}]\n", "unknown-zone"),
        ("gap_overrides: [{class: lime, months: 2, reason: agreed, protocols: [topsail]}]\n", "unknown-protocol"),
    ],
)
def test_names_in_what_was_agreed(book: Book, text: str, code: str) -> None:
    """Targets, decisions and waiting times name zones and protocols that exist."""
    book.add("client.yaml", text)
    problem = book.only()
    assert problem.code == code
    assert problem.mend in {"write home/river-flat", "write topsoil"}


@pytest.mark.parametrize(
    ("row", "code", "mend"),
    [
        ("2026-02-20,hame,river-flat,topsoil,0,10,25,moist,Jo,B1,", "unknown-farm", "write home"),
        ("2026-02-20,home,riverflat,topsoil,0,10,25,moist,Jo,B1,", "unknown-zone", "write river-flat"),
        ("2026-02-20,home,river-flat,topsoyl,0,10,25,moist,Jo,B1,", "unknown-protocol", "write topsoil"),
    ],
)
def test_names_in_field_notes(book: Book, row: str, code: str, mend: str) -> None:
    """A field note names a farm, a zone and a protocol that exist."""
    book.write("field_notes.csv", NOTES + row + "\n")
    problem = book.only()
    assert (problem.code, problem.mend, problem.place.line) == (code, mend, 2)


def test_names_in_results(book: Book) -> None:
    """A result names a laboratory of the book, and a zone that exists."""
    book.write(
        "records/results/anvil-creek/r1.csv",
        "report,sampled,reported,farm,zone,protocol,bag,top_cm,bottom_cm,analyte,method,qualifier,value,unit,laboratory\n"
        "r1,2026-02-20,2026-03-05,home,hills,topsoil,B1,0,10,phosphorus,colwell,,31,mg/kg,south-bench\n",
    )
    assert {problem.code for problem in book.problems()} == {"unknown-zone", "unknown-laboratory"}


def test_names_in_the_map(book: Book) -> None:
    """A feature of the map names a farm and a zone that exist."""
    point = '"geometry": {"type": "Point", "coordinates": [145.0, -37.0]}'
    ring = "[[145.0, -37.0], [145.001, -37.0], [145.001, -36.999], [145.0, -37.0]]"
    book.write(
        "map.geojson",
        '{"type": "FeatureCollection", "features": [\n'
        f'{{"type": "Feature", "properties": {{"kind": "access", "farm": "hoem"}}, {point}}},\n'
        '{"type": "Feature", "properties": {"kind": "zone", "farm": "home", "zone": "hil"},'
        f' "geometry": {{"type": "Polygon", "coordinates": [{ring}]}}}}\n]}}\n',
    )
    problems = book.problems()
    assert [(problem.code, problem.place.line) for problem in problems] == [("unknown-farm", 2), ("unknown-zone", 3)]
    assert [problem.mend for problem in problems] == ["write home", "write hill"]


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("season: late-summer", "season: late-sumer", "unknown-season"),
        ("laboratory: north-bench", "laboratory: north-bank", "unknown-laboratory"),
    ],
)
def test_names_in_shared_protocols(book: Book, old: str, new: str, code: str) -> None:
    """A shared protocol names a season and a laboratory that exist."""
    book.edit("protocols.yaml", old, new)
    problem = book.only(shared=True)
    assert problem.code == code
    assert problem.place.file == "protocols.yaml"
    assert problem.mend == "write " + old.split(": ")[1]


def test_names_in_own_protocols(book: Book) -> None:
    """A client's own protocol names a season that exists, and refines a shared protocol that exists."""
    book.add(
        "client.yaml",
        "protocols:\n"
        "  - {id: topsoil, based_on: topsoil, season: midwintre}\n"
        "  - {id: deeper, based_on: topsoyl, interval_months: 24}\n",
    )
    assert {problem.code for problem in book.problems()} == {"unknown-season", "unknown-protocol"}


def test_those_who_may_sample_are_samplers(book: Book) -> None:
    """A name that is nobody's, or that of somebody who does not sample, is found where it stands."""
    book.edit(
        "client.yaml", "adviser: mara-ellis\n", "adviser: mara-ellis\nsamplers: [jo-finch, jo-finhc, mara-ellis]\n"
    )
    problems = book.problems()
    assert [problem.code for problem in problems] == ["unknown-sampler"] * 2
    assert [problem.place.path for problem in problems] == ["samplers[1]", "samplers[2]"]
    assert "jo-finch" in problems[0].mend
