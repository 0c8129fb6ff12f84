"""Explanations of zones."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.explaining import Question, explain_subject, explain_zone
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


def test_a_judgement_comes_before_what_is_advised() -> None:
    """Phosphorus is an analyte and an input: both, with an empty line between."""
    lines = explain_subject(Question(BOOK, "anvil-creek", "barn", "phosphorus", AS_OF), never)
    break_ = lines.index("")
    assert lines[0].startswith("Barn: Topsoil under pasture")
    assert lines[break_ + 1] == "What is advised of phosphorus on 15 February 2027"


def test_an_input_that_is_no_analyte_is_advice_alone() -> None:
    """Lime, and nitrogen of which nothing can be advised."""
    lines = explain_subject(Question(BOOK, "anvil-creek", "ridge", "lime", AS_OF), never)
    assert lines[0].startswith("What is advised of lime")
    assert any(line.lstrip().startswith("Product: Ridge:") for line in lines)
    lines = explain_subject(Question(BOOK, "anvil-creek", "ridge", "nitrogen", AS_OF), never)
    assert lines[1] == "  No advice on nitrogen: the cropping plan has nothing for 2027."


def test_no_clock_is_asked_for_a_judgement() -> None:
    """Only advice has a day."""
    assert explain_subject(Question(BOOK, "anvil-creek", "barn", "ph.cacl2"), never)
    asked: list[str] = []

    def today(zone: str) -> date:
        asked.append(zone)
        return AS_OF

    assert explain_subject(Question(BOOK, "anvil-creek", "barn", "lime"), today)
    assert asked == ["Australia/Melbourne"]


def test_crops_of_the_plan_choose_the_rows() -> None:
    """A line that holds for wheat alone is found for a zone that grows it."""
    lines = explain_subject(Question(BOOK, "brolga-plains", "two", "phosphorus", AS_OF), never)
    assert any("crops wheat" in line for line in lines)


def test_a_subject_of_nobody() -> None:
    """What is near is offered, inputs of advice included; without results that is said."""
    with pytest.raises(CannotStartError, match="did you mean gypsum"):
        explain_subject(Question(BOOK, "anvil-creek", "barn", "gypsm", AS_OF), never)
    with pytest.raises(CannotStartError, match="has no results yet"):
        explain_subject(Question(BOOK, "juniper-start", "front", "lime", AS_OF), never)
