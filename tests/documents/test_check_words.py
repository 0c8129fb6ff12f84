"""Check samples in words: every state says why, and what to do."""

from __future__ import annotations

import pytest

from soilrota.documents.check_words import as_reported, grounds, off_by, standing, summary
from soilrota.guidelines.check_samples import check_sources
from soilrota.model.check_charts import CheckRule
from tests.documents.checks import LANGUAGE, LIMITS, a_chart


@pytest.mark.parametrize(
    ("deviations", "said"),
    [
        ((0.0, -0.5), ["lies 0.5 sd below the assigned value. Nothing to do."]),
        ((0.5, 0.0), ["lies on the assigned value. Nothing to do."]),
        ((0.0, 2.5), ["A check lies more than 2 sd above", "send another check sample"]),
        ((-0.1, *[0.2] * 8), ["8 checks in a row lie above", "send another check sample"]),
        (
            (0.0, -3.5),
            [
                "more than 3 sd below the assigned value. It was reported on 2 February 2026. Ask the laboratory;",
                "Colwell P results reported since 5 January 2026, its last check in line before, carry a doubt",
            ],
        ),
        (
            (0.0, 2.5, 0.0, 2.5),
            ["Two of three checks", "began with the check reported on 2 February 2026 and was plain on 30 March 2026."],
        ),
        ((0.0, *[1.4] * 6), ["adds up to a slow drift above"]),
        ((4.0,), ["all its Colwell P results so far carry a doubt until a check is in line again."]),
        (
            (0.0, 4.0, 0.5),
            [
                "Nothing to do. It was off before:",
                "results reported from 5 January 2026 until 2 March 2026 carry a doubt.",
            ],
        ),
    ],
)
def test_how_a_laboratory_stands(deviations: tuple[float, ...], said: list[str]) -> None:
    """Side, rule, days and what follows are said; sentences end."""
    words = standing(a_chart(*deviations), LIMITS, LANGUAGE)
    assert all(part in words for part in said), words
    assert words.endswith(".")


def test_what_cannot_be_told_is_said() -> None:
    """A chart of nothing but limits says so; a limit that tells something says at least how much."""
    assert "nothing can be told" in standing(a_chart(1.0, 2.0, qualifier="<"), LIMITS, LANGUAGE)
    (point,) = a_chart(-2.5, qualifier="<").points
    assert (as_reported(point, 2.0), off_by(point)) == ("<25", "at least 2.5 sd below")
    (point,) = a_chart(1.0, qualifier="<").points
    assert off_by(point) == ""


def test_the_summary_counts_every_chart_once() -> None:
    """Off first, then watch, then how many are in line and of how many nothing is known."""
    names = {"north-bench": "North Bench", "tarn-bench": "Tarn Bench"}
    charts = (
        a_chart(4.0),
        a_chart(2.5, laboratory="tarn-bench"),
        a_chart(0.0, laboratory="far-bench"),
        a_chart(1.0, qualifier="<", laboratory="far-bench"),
    )
    assert list(summary(charts, names)) == [
        "North Bench is off for Colwell P. Ask it before its results are believed.",
        "Tarn Bench is to be watched for Colwell P.",
        "1 of 4 charts is in line.",
        "Of 1 chart nothing can be told.",
    ]
    assert list(summary((a_chart(0.0), a_chart(0.1)), names)) == ["Every one of 2 charts is in line."]


def test_grounds_name_every_rule_and_what_has_no_chart() -> None:
    """Figures come from the table, sources with their standing; what was left out is said."""
    said = list(grounds(LIMITS, check_sources(), (("north-bench", "shed-loam", "ph.water"),)))
    assert sum("(unverified)" in one for one in said) == len(CheckRule)
    assert "0.5 sd adds up to more than 5 sd" in " ".join(said)
    assert said[-1] == "No chart: shed-loam has no assigned value of pH (water), which north-bench reported."
