"""Bag ids: one bag one id for ever, no id twice in a practice."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

from soilrota.bag_ids import bag_id, is_bag_id
from soilrota.batch.bag_issue import BagIssue
from soilrota.model.field_pack import Bag

DAY = date(2027, 2, 15)
TOP = Bag("", "home", "barn", "topsoil-pasture", "2027-01-20", 0, 10)
DEEP = replace(TOP, top_cm=10, bottom_cm=30)


def _ids(bags: tuple[Bag, ...] | None) -> list[str]:
    """Return the ids of bags."""
    assert bags is not None
    return [bag.id for bag in bags]


def test_a_bag_keeps_its_id(tmp_path: Path) -> None:
    """Asked again in any order, by the same night or a later one, it is the same; a new season has new ones."""
    issue = BagIssue(tmp_path)
    top, deep = _ids(issue.bags_for("anvil-creek", [TOP, DEEP], DAY))
    assert is_bag_id(top)
    assert is_bag_id(deep)
    assert top != deep
    assert _ids(issue.bags_for("anvil-creek", [DEEP, TOP], DAY)) == [deep, top]
    again = BagIssue(tmp_path)
    assert _ids(again.bags_for("anvil-creek", [TOP], date(2027, 3, 1))) == [top]
    assert _ids(again.bags_for("anvil-creek", [replace(TOP, season="2028-01-20")], DAY))[0] not in {top, deep}


def test_no_id_is_given_out_twice_in_a_practice(tmp_path: Path) -> None:
    """Two clients with farms of the same names, in one night and over two, and a client that left."""
    found = []
    for night in range(2):
        for client in ("anvil-creek", "brolga-plains"):
            zones = [replace(TOP, zone=f"zone-{night}-{number}") for number in range(50)]
            found += _ids(BagIssue(tmp_path).bags_for(client, zones, DAY))
    assert len(set(found)) == 200


def test_where_a_file_is_damaged_no_new_id_is_given_out(tmp_path: Path) -> None:
    """The ids in it might be given out again; ids that are known still serve the other clients."""
    known = _ids(BagIssue(tmp_path).bags_for("brolga-plains", [TOP], DAY))
    BagIssue(tmp_path).bags_for("anvil-creek", [TOP], DAY)
    (tmp_path / "records" / "issued" / "anvil-creek" / "bags.csv").write_text("bag\nB0\n")
    issue = BagIssue(tmp_path)
    assert _ids(issue.bags_for("brolga-plains", [TOP], DAY)) == known
    assert issue.problems == ()
    assert issue.bags_for("brolga-plains", [TOP, DEEP], DAY) is None
    assert {problem.place.file for problem in issue.problems} == {"records/issued/anvil-creek/bags.csv"}


def test_reserved_ids_are_passed_over(tmp_path: Path) -> None:
    """An id of a blind check sample goes to no client, wherever it stands among the free ones."""
    reserved = frozenset({bag_id(1), bag_id(3), bag_id(4)})
    zones = [replace(TOP, zone=f"zone-{number}") for number in range(3)]
    found = _ids(BagIssue(tmp_path, lambda: reserved).bags_for("anvil-creek", zones, DAY))
    assert found == [bag_id(2), bag_id(5), bag_id(6)]
    assert _ids(BagIssue(tmp_path, lambda: reserved).bags_for("brolga-plains", [TOP], DAY)) == [bag_id(7)]
