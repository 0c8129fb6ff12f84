"""From matched rows to the files of accepted results, and back."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.book.records import build_results
from soilrota.files import read_csv
from soilrota.model.results import Result
from soilrota.problems import Place
from soilrota.results.accepting import COLUMNS, plain_number, report_file_name, results_of, results_table
from tests.documents.made import CLIENTS, example
from tests.results.intake_worlds import NIGHT, TAKEN, A, matched, value

NOWHERE = Place("")


def read_back(table: bytes) -> list[Result]:
    """Return the results of a table, read as the book reads it, without their places."""
    with TemporaryDirectory() as folder:
        file = Path(folder) / "r.csv"
        file.write_bytes(table)
        read, problems = read_csv(file, "r.csv", "results")
        assert problems == ()
        assert read is not None
        return [replace(one.value, place=NOWHERE) for one in build_results([read])]


def test_results_of_a_row() -> None:
    """Value by value, with the row's days and origin; a report without a day has that of the night."""
    two = matched(A, values=(value(number=31.25), value("ph", 5.2, qualifier=">")))
    first, second = results_of(two, "north-bench", 2, NIGHT, "abc:2")
    assert (first.analyte, first.method, first.value, first.unit) == ("phosphorus", "colwell", 31.25, "mg/kg")
    assert (first.report, first.issue, first.origin, first.laboratory) == ("NB-24117", 2, "abc:2", "north-bench")
    assert (first.sampled, first.received, first.reported) == (TAKEN, date(2027, 2, 15), date(2027, 2, 27))
    assert (first.bag, first.farm, first.zone, first.top_cm, first.bottom_cm) == (A, "home", "flat", 0, 10)
    assert (second.qualifier, second.as_reported) == (">", "5.2 pH")
    assert results_of(matched(A, reported=None), "north-bench", 1, NIGHT, "")[0].reported == NIGHT
    assert results_of(matched(A, values=()), "north-bench", 1, NIGHT, "") == ()


def test_what_cannot_be_seen_is_not_kept() -> None:
    """A cell with line breaks, a right-to-left mark or endless text still makes a file that can be read."""
    odd = matched(A, values=(value(as_reported="3,1\n mg/kg\u202e\x00 " + "x" * 300),))
    results = results_of(odd, "north-bench", 1, NIGHT, "abc:2")
    assert results[0].as_reported.startswith("3,1 mg/kg xxx")
    assert read_back(results_table(results)) == [replace(results[0], place=NOWHERE)]


def test_the_table_is_plain() -> None:
    """One line a value, in the order of zone, layer and analysis, whatever the order of the rows; line feeds."""
    some = [*results_of(matched(A, "hill"), "north-bench", 1, NIGHT, "abc:3")]
    some += results_of(matched(A, values=(value(), value("ph", 5.0))), "north-bench", 1, NIGHT, "abc:2")
    table = results_table(some).decode()
    head = "NB-24117,2027-02-10,2027-02-27,home,"
    assert table.splitlines() == [
        ",".join(COLUMNS),
        f"{head}flat,topsoil,{A},0,10,ph,cacl2,,5,pH,north-bench,1,2027-02-15,5 pH,abc:2",
        f"{head}flat,topsoil,{A},0,10,phosphorus,colwell,,31,mg/kg,north-bench,1,2027-02-15,31 mg/kg,abc:2",
        f"{head}hill,topsoil,{A},0,10,phosphorus,colwell,,31,mg/kg,north-bench,1,2027-02-15,31 mg/kg,abc:3",
    ]
    assert "\r" not in table
    Random(3).shuffle(some)
    assert results_table(some).decode() == table


@pytest.mark.parametrize("client_id", CLIENTS)
def test_results_of_the_examples_read_back_equal(client_id: str) -> None:
    """Every result of every example client, written and read again, is the same."""
    results = [replace(one, place=NOWHERE) for one in example(client_id).results]
    back = read_back(results_table(results))
    assert sorted(back, key=str) == sorted(results, key=str)


@given(st.floats(-1e5, 1e6), st.text(st.characters(codec="utf-8"), max_size=250), st.sampled_from(["", "<", ">"]))
def test_any_value_reads_back_equal(number: float, words: str, qualifier: str) -> None:
    """Whatever a conversion leaves behind and whatever the laboratory wrote."""
    one = matched(A, values=(value(number=number, as_reported=words, qualifier=qualifier),))
    results = results_of(one, "north-bench", 1, NIGHT, "abc:2")
    assert read_back(results_table(results)) == [replace(one, place=NOWHERE) for one in results]
    assert float(plain_number(number)) == number


def test_names_of_files() -> None:
    """A plain report number is its own name; any other is told apart by a digest; each issue has its file."""
    assert report_file_name("north-bench", "nb-24117", 1) == "north-bench_nb-24117.csv"
    assert report_file_name("north-bench", "nb-24117", 3) == "north-bench_nb-24117-issue-3.csv"
    reports = [
        "nb-1",
        "NB-1",
        "nb 1",
        "nb/1",
        "nb-1-issue-2",
        "issue-2",
        "../nb-1",
        "con",
        "ß",
        "報告",
        "x" * 80,
        "x" * 79,
    ]
    names = [report_file_name(lab, one, issue) for lab in ("a", "a-nb") for one in reports for issue in (1, 2)]
    assert len({name.casefold() for name in names}) == len(names)
    assert all(set(name) <= set("abcdefghijklmnopqrstuvwxyz0123456789-_.") and len(name) < 100 for name in names)


@given(st.text(max_size=80), st.text(max_size=80), st.integers(1, 3), st.integers(1, 3))
def test_no_two_reports_share_a_file(one: str, other: str, issue: int, other_issue: int) -> None:
    """Different reports or issues, different names."""
    same = report_file_name("lab", one, issue) == report_file_name("lab", other, other_issue)
    assert same == ((one, issue) == (other, other_issue))
