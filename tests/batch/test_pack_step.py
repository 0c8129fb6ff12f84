"""When field packs are made again, when they are left alone, and what is given out with them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.issued import read_issued
from soilrota.batch.ledger import Ledger, open_ledger
from soilrota.batch.pack_step import PackRequest, keep_packs
from tests.batch.jobs import PAPERS

VISIT = {
    "visit": "anvil-creek/home/1",
    "client": "anvil-creek",
    "farm": "home",
    "preferred": "2027-02-20",
    "bags": "barn/topsoil-pasture/2027-01-20/0-10 barn/acidity/2027-01-20/0-10 barn/acidity/2027-01-20/10-20",
}
FAR = {**VISIT, "visit": "anvil-creek/home/2", "preferred": "2027-08-01", "bags": "barn/nitrogen/2027-07-20/0-10"}
PLACED = {"visit": "anvil-creek/home/1", "day": "2027-02-22", "person": "Ned Marlow"}


@pytest.fixture
def ledger(tmp_path: Path) -> Iterator[Ledger]:
    """Return an open ledger."""
    with open_ledger(tmp_path / "ledger.sqlite") as opened:
        yield opened


class Nights:
    """Runs the step again and again over one book."""

    def __init__(self, root: Path, ledger: Ledger) -> None:
        self.root, self.out, self.ledger = root, root / "out", ledger

    def keep(
        self,
        day: str,
        *visits: dict[str, str],
        inputs: str = "files",
        placed: tuple[dict[str, str], ...] = (PLACED,),
        job: str = PAPERS,
    ) -> tuple[dict[str, tuple[bool, date]], tuple[str, ...]]:
        """Run the step; return its files by name, whether made and their date, and the faults."""
        request = PackRequest(self.root, self.out, date.fromisoformat(day), "engine", 60, 1, 60.0, 1024, job)
        files, faults = keep_packs(request, {"anvil-creek": (inputs, visits)}, placed, self.ledger, lambda: False)
        return {file.file.rpartition("/")[2]: (file.made, file.day) for file in files}, faults

    def text(self) -> list[str]:
        """Return the lines of the first paper."""
        return (self.out / "clients" / "anvil-creek" / "paper-1.pdf").read_text().splitlines()


@pytest.fixture
def nights(tmp_path: Path, ledger: Ledger) -> Nights:
    """Return a book's nights."""
    return Nights(tmp_path, ledger)


def test_left_alone_until_something_changes(nights: Nights) -> None:
    """Made once; same bytes where a file is gone; anew for other files, another day or another person."""
    first = date(2027, 2, 1)
    assert nights.keep("2027-02-01", VISIT, FAR) == ({"paper-1.pdf": (True, first)}, ())
    lines = nights.text()
    assert lines[:3] == ["2027-02-01", "anvil-creek/home/1", "Ned Marlow"]
    assert nights.keep("2027-02-02", VISIT, FAR)[0] == {"paper-1.pdf": (False, first)}
    (nights.out / "clients" / "anvil-creek" / "paper-1.pdf").unlink()
    assert nights.keep("2027-02-03", VISIT, FAR)[0] == {"paper-1.pdf": (True, first)}
    assert nights.text() == lines
    assert nights.keep("2027-02-04", VISIT, inputs="other")[0] == {"paper-1.pdf": (True, date(2027, 2, 4))}
    other = {**PLACED, "person": "Ruth Aske"}
    assert nights.keep("2027-02-05", VISIT, inputs="other", placed=(other,))[0]["paper-1.pdf"][0]
    assert nights.text()[2:] == ["Ruth Aske", *lines[3:]], "the bags keep their ids"


def test_only_visits_of_the_coming_weeks_get_a_pack(nights: Nights) -> None:
    """A visit too far ahead has none; one that has passed out of the plan loses it."""
    assert nights.keep("2026-11-01", VISIT, FAR) == ({}, ())
    assert nights.keep("2027-02-01", VISIT, FAR)[0].keys() == {"paper-1.pdf"}
    assert nights.keep("2027-07-01", FAR, placed=())[0].keys() == {"paper-2.pdf"}
    assert not (nights.out / "clients" / "anvil-creek" / "paper-1.pdf").exists()
    assert nights.keep("2027-07-02", placed=()) == ({}, ())
    assert not (nights.out / "clients" / "anvil-creek" / "paper-2.pdf").exists()


def test_what_is_given_out_is_written_down(nights: Nights) -> None:
    """A row a bag with the night's date, and the points of each task once."""
    nights.keep("2027-02-01", VISIT)
    nights.keep("2027-02-04", VISIT, inputs="other")
    issued, problems = read_issued(nights.root, "anvil-creek")
    assert problems == ()
    assert issued is not None
    assert [(one.bag.id, one.issued_on) for one in issued.bags] == [
        (line, date(2027, 2, 1)) for line in nights.text()[3:]
    ]
    assert [(point.protocol, point.issued_on) for point in issued.points] == [
        ("acidity", date(2027, 2, 1)),
        ("topsoil-pasture", date(2027, 2, 1)),
    ]


def test_a_damaged_record_is_said_and_stops_no_one_else(nights: Nights) -> None:
    """The fault names file and line; what stands is left."""
    nights.keep("2027-02-01", VISIT)
    lines = nights.text()
    (nights.root / "records" / "issued" / "anvil-creek" / "bags.csv").write_text("bag\nB0\n")
    files, faults = nights.keep("2027-02-02", VISIT, inputs="other")
    assert files == {}
    assert faults
    assert "records/issued/anvil-creek/bags.csv" in faults[0]
    assert nights.text() == lines


def test_a_worker_that_fails_costs_one_night(nights: Nights) -> None:
    """It is said, the earlier papers stand, the next night tries again."""
    nights.keep("2027-02-01", VISIT)
    files, faults = nights.keep("2027-02-02", VISIT, inputs="other", job="tests.batch.jobs:nothing_of_that_name")
    assert files == {}
    assert faults[0].startswith("the field packs of anvil-creek could not be made: ")
    assert nights.keep("2027-02-03", VISIT, inputs="other")[0] == {"paper-1.pdf": (True, date(2027, 2, 3))}
