"""The log of a night: one JSON object a line, added to what is there."""

from __future__ import annotations

import json
from datetime import datetime
from pathlib import Path

import pytest

from soilrota.batch.faults import CannotStartError
from soilrota.cli.log_lines import LogLines


def test_lines_are_added(tmp_path: Path) -> None:
    """Each has its moment and its event; a second log goes on where the first ended."""
    path = tmp_path / "night.jsonl"
    for number in (1, 2):
        log = LogLines(path)
        log.add("client", client="alder-farm", number=number, place=tmp_path)
        log.close()
    lines = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]
    assert [line["number"] for line in lines] == [1, 2]
    assert all(line["event"] == "client" and datetime.fromisoformat(line["at"]).tzinfo for line in lines)


def test_without_a_file_nothing_is_kept(tmp_path: Path) -> None:
    """And nothing fails."""
    log = LogLines(None)
    log.add("begin", clients=1)
    log.close()
    assert list(tmp_path.iterdir()) == []


def test_a_place_that_cannot_be_written(tmp_path: Path) -> None:
    """Nothing is begun."""
    with pytest.raises(CannotStartError, match="cannot be written"):
        LogLines(tmp_path / "no" / "such" / "folder.jsonl")
