"""What was given out: written, read back, added to, and which points a sampling followed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

from soilrota.batch.issued import add_bags, add_points, earlier_points, read_issued
from soilrota.model.field_pack import Bag
from soilrota.model.issued import Issued, IssuedBag, IssuedPoint
from soilrota.model.windows import TaskKey
from tests.documents.made import example

FIRST, LATER, LAST = date(2025, 2, 1), date(2025, 2, 10), date(2026, 2, 1)
BAG = Bag("B0412-G", "home", "barn", "topsoil-pasture", "2025-01-20", 0, 7.5)
KEY = TaskKey("home", "barn", "topsoil-pasture")


def _walk(day: date, *longitudes: float, season: str = "2025-01-20") -> list[IssuedPoint]:
    """Return the points of one walk."""
    return [
        IssuedPoint(KEY.farm, KEY.zone, KEY.protocol, season, number, (longitude, -37.25), number == 2, day)
        for number, longitude in enumerate(longitudes, start=1)
    ]


def test_nothing_was_given_out(tmp_path: Path) -> None:
    """No file, nothing given out, no problem."""
    assert read_issued(tmp_path, "anvil-creek") == (Issued(), ())


def test_what_is_written_is_read(tmp_path: Path) -> None:
    """Bags and points come back as they were; more are added at the end."""
    one, two = IssuedBag(BAG, FIRST), IssuedBag(replace(BAG, id="B0413-5", top_cm=7.5, bottom_cm=30), FIRST)
    issued = add_bags(tmp_path, "anvil-creek", Issued(), [one])
    issued = add_points(tmp_path, "anvil-creek", issued, _walk(FIRST, 143.5, 143.501))
    issued = add_bags(tmp_path, "anvil-creek", issued, [two])
    assert read_issued(tmp_path, "anvil-creek") == (issued, ())
    assert issued.bags == (one, two)
    text = (tmp_path / "records" / "issued" / "anvil-creek" / "bags.csv").read_text()
    assert text.splitlines()[1:] == [
        "B0412-G,home,barn,topsoil-pasture,2025-01-20,0,7.5,2025-02-01",
        "B0413-5,home,barn,topsoil-pasture,2025-01-20,7.5,30,2025-02-01",
    ]


def test_points_are_added_only_where_they_are_others(tmp_path: Path) -> None:
    """The same points again add no row, whatever the night; other ones do, and so does another season."""
    walk = _walk(FIRST, 143.5, 143.501)
    issued = add_points(tmp_path, "anvil-creek", Issued(), walk)
    same = add_points(tmp_path, "anvil-creek", issued, _walk(LATER, 143.5, 143.501000004))
    assert same == issued
    moved = add_points(tmp_path, "anvil-creek", issued, _walk(FIRST, 143.5, 143.502))
    assert len(moved.points) == 4
    back = add_points(tmp_path, "anvil-creek", moved, walk)
    assert len(back.points) == 6
    assert len(add_points(tmp_path, "anvil-creek", back, _walk(LAST, 143.5, 143.501, season="2026-01-20")).points) == 8


def test_a_sampling_followed_the_points_given_out_last_before_it(tmp_path: Path) -> None:
    """Later points, those given out after the sampling apart; the whole walk, in its order."""
    client = example("anvil-creek")
    sampled = max(note.day for note in client.field_notes if (note.farm, note.zone) == ("home", "barn"))
    issued = Issued()
    assert earlier_points(client, issued, KEY) == ()
    for walk in (_walk(FIRST, 143.1, 143.2), _walk(FIRST, 143.3, 143.4), _walk(date(2027, 2, 1), 143.5, 143.6)):
        issued = add_points(tmp_path, "anvil-creek", issued, walk)
    assert FIRST <= sampled < date(2027, 2, 1)
    found = earlier_points(client, issued, KEY)
    assert [(point.number, point.position[0], point.in_row) for point in found] == [(1, 143.3, False), (2, 143.4, True)]
    assert earlier_points(replace(client, field_notes=()), issued, KEY) == ()


def test_a_damaged_file_is_a_problem_with_its_place(tmp_path: Path) -> None:
    """A cell that cannot be read is said, and nothing is taken to be given out."""
    add_bags(tmp_path, "anvil-creek", Issued(), [IssuedBag(BAG, FIRST)])
    path = tmp_path / "records" / "issued" / "anvil-creek" / "bags.csv"
    path.write_text(path.read_text().replace("2025-02-01", "soon"))
    issued, problems = read_issued(tmp_path, "anvil-creek")
    assert issued is None
    assert [(problem.place.file, problem.place.line) for problem in problems] == [
        ("records/issued/anvil-creek/bags.csv", 2)
    ]
