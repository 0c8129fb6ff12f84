"""Days that cannot be, are reversed, or are not known."""

from __future__ import annotations

import pytest

from tests.book.small_book import Book

LOG = "farm,zones,class,material,first_day,last_day,standing,rate_kg_ha,note\n"
RESULTS = (
    "report,sampled,reported,farm,zone,protocol,bag,top_cm,bottom_cm,analyte,method,qualifier,value,unit,laboratory\n"
)


@pytest.mark.parametrize("day", ["1899-03-20", "1989-12-31", "2101-01-01"])
def test_a_year_that_cannot_be(book: Book, day: str) -> None:
    """A decision before 1990 or after 2100 is a slip."""
    book.add("client.yaml", f"decisions: [{{protocol: topsoil, day: {day}, what: order}}]\n")
    problem = book.only()
    assert problem.code == "year-not-possible"
    assert day in problem.found


def test_every_kind_of_day_is_looked_at(book: Book) -> None:
    """Earlier samplings, applications, notes and results have possible years too."""
    sampling = "    protocols: [topsoil]\n        last_sampled: [{protocol: topsoil, day: 1926-02-20}]\n"
    book.edit("client.yaml", "    protocols: [topsoil]\n", sampling)
    book.write("applications.csv", LOG + "home,hill,lime,lime,1926-02-20,,done,2000,\n")
    book.write(
        "field_notes.csv",
        "day,farm,zone,protocol,top_cm,bottom_cm,cores,soil_state,sampler,bag,note\n"
        "1926-02-20,home,hill,topsoil,0,10,25,moist,Jo,B1,\n",
    )
    row = "r1,1926-02-20,1926-03-20,home,hill,topsoil,B1,0,10,phosphorus,colwell,,31,mg/kg,north-bench\n"
    book.write("records/results/anvil-creek/r1.csv", RESULTS + row)
    assert [problem.code for problem in book.problems()] == ["year-not-possible"] * 5


def test_spreading_that_ends_before_it_starts(book: Book) -> None:
    """The last day is not before the first."""
    book.write("applications.csv", LOG + "home,hill,lime,lime,2026-05-10,2026-05-08,done,2000,\n")
    problem = book.only()
    assert (problem.code, problem.place.line) == ("days-reversed", 2)


def test_results_reported_before_sampling(book: Book) -> None:
    """A report is not older than its sample."""
    row = "r1,2026-02-20,2026-02-19,home,hill,topsoil,B1,0,10,phosphorus,colwell,,31,mg/kg,north-bench\n"
    book.write("records/results/anvil-creek/r1.csv", RESULTS + row)
    assert book.only().code == "days-reversed"


@pytest.mark.parametrize("days", ["unknown,", "unknown,2026-05-10", "2026-05-10,unknown"])
def test_a_day_that_is_not_known(book: Book, days: str) -> None:
    """A spreading without its date is a warning, and the client still loads."""
    book.write("applications.csv", LOG + f"home,hill,lime,fine lime,{days},done,2000,\n")
    client, problems = book.client()
    assert [problem.code for problem in problems] == ["day-not-known"]
    assert client is not None
    assert client.warnings == problems
