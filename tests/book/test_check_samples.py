"""Builders of check materials, closed rows and the inbox."""

from __future__ import annotations

from pathlib import Path

from soilrota.book.check_samples import build_check_bags, build_check_materials, build_dismissed, build_inbox
from soilrota.files import read_csv
from soilrota.model.practice import AssignedValue, Inbox
from tests.book.written import written


def test_materials_closed_rows_and_the_inbox() -> None:
    """What is written is read; what is not is none, or the house default."""
    values = [{"analysis": "phosphorus.colwell", "value": 32, "sd": 2.1}]
    row = {"row": "0a1b2c3d4e5f:17", "reason": "Of another client.", "by": "jo"}
    data = {"check_materials": [{"id": "loam", "name": "Loam", "values": values}], "dismissed_rows": [row]}
    (material,) = build_check_materials(written(data, "practice.yaml"))
    assert material.value.values == (AssignedValue("phosphorus", "colwell", "mg/kg", 32.0, 2.1),)
    assert material.value.place.path == "check_materials/0"
    (closed,) = build_dismissed(written(data, "practice.yaml"))
    assert (closed.value.row, closed.value.reason, closed.value.by) == tuple(row.values())
    assert (build_check_materials(written({})), build_dismissed(written({}))) == ((), ())
    assert build_inbox({}) == build_inbox({"inbox": {}}) == Inbox(10.0)
    assert build_inbox({"inbox": {"quiet_s": 0}}) == Inbox(0.0)


def test_check_bags_know_their_cells(tmp_path: Path) -> None:
    """The place of a property is the cell of its column, in whatever order the columns stand."""
    path = tmp_path / "check_samples.csv"
    path.write_text("sent,laboratory,material,bag\n2026-02-16,north,loam,Z9000-W\n", encoding="utf-8")
    (bag,) = build_check_bags(read_csv(path, path.name, "check_samples")[0])
    assert (bag.value.bag, bag.value.sent.isoformat(), bag.at("bag").column) == ("Z9000-W", "2026-02-16", 23)
    assert build_check_bags(None) == ()
