"""The rows of a zone: pictures and tables say the same numbers."""

from __future__ import annotations

import re
from html import unescape

import pytest

from soilrota.documents.report_grounds import all_judged
from soilrota.documents.report_results import result_views
from tests.documents.reports import REPORTED, farm_grounds


@pytest.mark.parametrize("name", REPORTED)
def test_text_alternatives_agree_with_the_table(name: str) -> None:
    """Value, interval, line and target of the row stand in the words of its chart."""
    farm = farm_grounds(name)
    charts = 0
    for judged in farm.judged:
        rows = result_views(farm, judged)
        assert len(rows) == len(all_judged(judged))
        for row in rows:
            if not row.chart:
                continue
            charts += 1
            found = re.search("<title>(.*)</title>", row.chart)
            assert found is not None
            told = unescape(found.group(1))
            assert told.startswith(f"{row.name}, {row.depth}: ")
            last = told.partition(". Held against")[0].rpartition("; ")[2]
            assert row.value in last
            if row.interval and "derived" not in row.name:
                low, high = row.interval.split(" to ")
                assert f"(between {low} and {high})" in last
            held = told.partition("Held against: ")[2]
            if row.target and row.target != "no line printed":
                line = row.target.partition("; ")[0]
                assert re.sub(r" \((below|above|in range)\)$", "", line) in held
    assert charts


def test_why_a_value_is_not_judged() -> None:
    """Instead of a chance."""
    rows = result_views(farm_grounds("iron-prairie"), farm_grounds("iron-prairie").judged[0])
    phosphorus = next(row for row in rows if row.name == "Bray-1 P")
    assert phosphorus.words == "Not judged"
    assert phosphorus.meaning.endswith("The guideline says nothing of it.")
    assert phosphorus.target == "target 15 or more (below)"


def test_breaks_are_named() -> None:
    """Values by another method stand in the chart as not comparable."""
    farm = farm_grounds("brolga-plains")
    rows = result_views(farm, farm.judged[0])
    phosphorus = next(row for row in rows if row.name == "Colwell P")
    assert phosphorus.chart.count("not comparable: Olsen P") == 2
    assert "2 earlier values do not compare" in phosphorus.trend


def test_sources_are_numbered_in_the_order_of_the_page() -> None:
    """Each row with a line names its source."""
    farm = farm_grounds("hazel-rigg")
    rows = result_views(farm, farm.judged[0])
    assert rows[0].sources == "[1] [2]"
    assert len(farm.sources) >= 2
