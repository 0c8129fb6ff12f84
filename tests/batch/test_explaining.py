"""Explanations of zones."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.explaining import explain_zone
from soilrota.batch.faults import CannotStartError
from tests.documents.made import AS_OF, BOOK


def never(_: str) -> date:
    """Fail: the clock is not asked where a date is given."""
    raise AssertionError("the clock was read")


def test_reasons_come_in_order_with_file_and_line() -> None:
    """Each reason that a record caused names it; the changes come last."""
    lines = explain_zone(BOOK, "anvil-creek", "north-flat", AS_OF, never)
    text = "\n".join(lines)
    assert lines[0] == "North flat, Home block: Topsoil under pasture"
    assert "clients/anvil-creek/applications.csv:2:1" in text
    assert text.index("Last sampled") < text.index("After lime") < text.index("What would change it")
    assert "Without the spreading of lime (ground limestone) the best day is 19 February 2027" in text


def test_every_task_of_the_zone_is_explained() -> None:
    """Two protocols, two explanations; farm and zone may be named together."""
    lines = explain_zone(BOOK, "brolga-plains", "plains/two", AS_OF, never)
    assert lines.count("") == 1
    assert sum(line.startswith("Paddock two, Brolga Plains:") for line in lines) == 2


def test_without_a_date_today_is_asked_in_the_time_zone_of_the_practice() -> None:
    """The clock belongs to the edge."""
    asked: list[str] = []

    def today(zone: str) -> date:
        asked.append(zone)
        return AS_OF

    assert explain_zone(BOOK, "juniper-start", "front", None, today)
    assert asked == ["Australia/Melbourne"]


@pytest.mark.parametrize(
    ("client", "zone", "words"),
    [
        ("anvil-crek", "barn", "did you mean anvil-creek"),
        ("anvil-creek", "brn", "did you mean barn"),
        ("anvil-creek", "qqqq", "has no zone qqqq"),
    ],
)
def test_names_that_lead_nowhere(client: str, zone: str, words: str) -> None:
    """The nearest name is offered."""
    with pytest.raises(CannotStartError, match=words):
        explain_zone(BOOK, client, zone, AS_OF, never)


def test_a_book_with_errors_explains_nothing(tmp_path: Path) -> None:
    """The problems come with the refusal."""
    with pytest.raises(CannotStartError, match="not a book"):
        explain_zone(tmp_path, "a", "b", AS_OF, never)
    (tmp_path / "practice.yaml").write_text("name: x\n", encoding="utf-8")
    with pytest.raises(CannotStartError) as refused:
        explain_zone(tmp_path, "a", "b", AS_OF, never)
    assert refused.value.problems
