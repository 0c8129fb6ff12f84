"""What a client's file says against what its zones use."""

from __future__ import annotations

import pytest

from soilrota.problems import Severity
from tests.book.small_book import Book

LOG = "farm,zones,class,material,first_day,last_day,standing,rate_kg_ha,note\n"
SECOND = """\
  - id: deep
    name: Deep nitrogen
    season: late-summer
    interval_months: 12
    layers: [{top_cm: 10, bottom_cm: 60}]
    pattern: zigzag
    largest_area_ha: 20
    analyses: [nitrate-nitrogen.kcl]
"""


def test_an_earlier_sampling_of_no_use(book: Book) -> None:
    """A sampling of a protocol that the zone does not use is a warning."""
    book.add("protocols.yaml", SECOND)
    sampling = "    protocols: [topsoil]\n        last_sampled: [{protocol: deep, day: 2026-02-20}]\n"
    book.edit("client.yaml", "    protocols: [topsoil]\n", sampling)
    problem = book.only()
    assert (problem.code, problem.severity) == ("sampling-without-use", Severity.WARNING)


@pytest.mark.parametrize("zones", ["", ", zones: [home/hill]"])
def test_a_decision_without_a_task(book: Book, zones: str) -> None:
    """A decision for a protocol that none of its zones uses is a warning."""
    book.add("protocols.yaml", SECOND)
    book.add("client.yaml", f"decisions: [{{protocol: deep, day: 2027-03-20, what: order{zones}}}]\n")
    assert book.only().code == "decision-without-task"
    book.edit("client.yaml", "protocol: deep", "protocol: topsoil")
    assert book.problems() == ()


def test_an_application_without_zones(book: Book) -> None:
    """No zone named is said, and is kept as such."""
    book.write("applications.csv", LOG + "home,,lime,fine lime,2026-05-10,,done,2000,\n")
    client, problems = book.client()
    assert [(problem.code, problem.place.line) for problem in problems] == [("no-zone-named", 2)]
    assert client is not None
    assert client.applications[0].zones == ()


def test_a_mixed_zone(book: Book) -> None:
    """What else lies inside is printed with the zone."""
    book.edit("client.yaml", "area_ha: 8\n", "area_ha: 8\n        mixed_with: [yellow sand on the crest]\n")
    problem = book.only()
    assert (problem.code, problem.severity) == ("zone-mixed", Severity.WARNING)
    assert "yellow sand on the crest" in problem.found


@pytest.mark.parametrize(
    ("kind", "rate", "unlikely"),
    [
        ("lime", 2500, False),
        ("lime", 25_000, True),
        ("mineral-fertiliser", 1999, False),
        ("mineral-fertiliser", 2500, True),
        ("manure", 40_000, False),
    ],
)
def test_a_rate_that_looks_like_a_slip(book: Book, kind: str, rate: int, unlikely: bool) -> None:
    """A rate above any ordinary dressing of its class is a warning."""
    book.write("applications.csv", LOG + f"home,hill,{kind},something,2026-05-10,,done,{rate},\n")
    assert [problem.code for problem in book.problems()] == (["rate-unlikely"] if unlikely else [])


def test_a_target_reversed(book: Book) -> None:
    """Low is not above high, and the layer has a depth."""
    book.add(
        "client.yaml",
        "targets: [{analyte: phosphorus, method: colwell, unit: mg/kg, low: 40, high: 31, top_cm: 10, bottom_cm: 0,"
        " source: house}]\n",
    )
    assert {problem.code for problem in book.problems()} == {"target-reversed", "layer-upside-down"}


def test_a_note_without_a_layer(book: Book) -> None:
    """The bottom of a bag's layer lies below its top."""
    book.write(
        "field_notes.csv",
        "day,farm,zone,protocol,top_cm,bottom_cm,cores,soil_state,sampler,bag,note\n"
        "2026-02-20,home,hill,topsoil,10,10,25,moist,Jo,B1,\n",
    )
    assert book.only().code == "layer-upside-down"
