"""Ids of check samples are given to no client, and one that was is said."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from soilrota.bag_ids import bag_id
from soilrota.batch.bag_issue import BagIssue
from soilrota.batch.check_bags import doubly_used, reserved_ids
from soilrota.model.field_pack import Bag
from soilrota.model.practice import CheckBag
from soilrota.problems import Place

DAY = date(2027, 2, 15)
TOP = Bag("", "home", "barn", "topsoil-pasture", "2027-01-20", 0, 10)


def check_bag(bag: str, line: int = 2) -> CheckBag:
    """Return a check sample."""
    return CheckBag(bag, "shed-loam", "north-bench", DAY, Place("check_samples.csv", line, 1))


def test_reserved_ids_are_those_of_the_table(tmp_path: Path) -> None:
    """No table, no ids; a table with an error gives none."""
    assert reserved_ids(tmp_path) == frozenset()
    table = tmp_path / "check_samples.csv"
    table.write_text("bag,material,laboratory,sent\nZ9000-W,shed-loam,north-bench,2026-02-02\n", encoding="utf-8")
    assert reserved_ids(tmp_path) == {"Z9000-W"}
    table.write_text("bag\nZ9000-W\n", encoding="utf-8")
    assert reserved_ids(tmp_path) == frozenset()


def test_an_id_that_was_given_out_is_located(tmp_path: Path) -> None:
    """The problem names client, zone and the row of check_samples.csv; other check samples are fine."""
    bags = BagIssue(tmp_path).bags_for("anvil-creek", [TOP], DAY)
    assert bags is not None
    (problem,) = doubly_used(tmp_path, [check_bag("Z9000-W"), check_bag(bags[0].id, 3)])
    assert (problem.code, str(problem.place)) == ("check-bag-issued", "check_samples.csv:3:1")
    assert "anvil-creek for home/barn" in problem.found
    assert doubly_used(tmp_path, [check_bag("Z9000-W")]) == ()
    assert doubly_used(tmp_path / "nowhere", [check_bag(bag_id(1))]) == ()
