"""What is wrong with a guideline set is found, and nothing is found in one that is sound."""

from __future__ import annotations

from typing import Any

import pytest

from soilrota.guidelines.set_problems import set_problems
from soilrota.problems import Severity
from tests.guidelines.a_set import guideline, place, row


def _classes(*edges: tuple[float | None, float | None]) -> list[dict[str, Any]]:
    """Return classes of the names a, b, c with these edges."""
    return [
        {
            "name": name,
            "words": name,
            **({} if low is None else {"low": low}),
            **({} if high is None else {"high": high}),
        }
        for name, (low, high) in zip("abc", edges, strict=False)
    ]


def _range(low: float | None, high: float | None, covariate: str = "clay-percent") -> list[dict[str, Any]]:
    """Return one range of a covariate."""
    ends = {"low": low, "high": high}
    return [{"covariate": covariate, **{key: end for key, end in ends.items() if end is not None}}]


ONE_ROW = {
    "unknown-analyte": [
        {"analyte": "phosphorous"},
        {"analyte": "phosphorus", "method": "derived"},
        {"analyte": "sodium-shares", "method": "derived", "unit": "%"},
    ],
    "unknown-method": [{"method": "olson"}, {"analyte": "exchange-capacity", "method": "sum", "unit": "cmol(+)/kg"}],
    "wrong-unit": [{"unit": "mg/l"}, {"analyte": "sodium-share", "method": "derived"}],
    "unknown-source": [{"source": "elsewhere"}],
    "layer-upside-down": [{"top_cm": 10, "bottom_cm": 10}, {"top_cm": 20}],
    "unknown-covariate": [
        {"ranges": _range(1, 2, "clay")},
        {"ranges": _range(1, 2, "ph.cacl3")},
        {"critical": None, "line": {"covariate": "pbi", "constant": 1, "factor": 1, "exponent": 1}},
    ],
    "range-empty": [{"ranges": _range(None, None)}, {"ranges": _range(20, 20)}, {"ranges": _range(20, 10)}],
    "class-open": [{"classes": _classes((0, 10), (10, None))}, {"classes": _classes((None, 10), (10, 20))}],
    "class-gap": [
        {"classes": _classes((None, 9), (10, None))},
        {"classes": _classes((None, None), (10, None))},
        {"classes": _classes((None, 10), (None, None))},
    ],
    "class-overlap": [{"classes": _classes((None, 11), (10, None))}],
    "class-order": [{"classes": _classes((None, 10), (10, 10), (10, None))}],
    "class-repeated": [
        {"classes": [{"name": "a", "words": "low", "high": 9}, {"name": "a", "words": "high", "low": 9}]}
    ],
    "edge-decimals": [{"decimals": 0, "classes": _classes((None, 10.5), (10.5, None))}],
    "critical-twice": [{"line": {"covariate": "clay-percent", "constant": 1, "factor": 1, "exponent": 1}}],
    "critical-outside-interval": [{"critical_low": 15}, {"critical_high": 13}, {"critical_low": 1, "critical_high": 2}],
    "interval-upside-down": [{"critical_low": 15, "critical_high": 13}],
    "description-with-line": [{"sense": "description"}],
    "unverified-without-note": [{"status": "unverified"}],
}
SOUND = [
    {},
    {"critical": None},
    {"critical_low": 14, "critical_high": 14},
    {"decimals": 1, "classes": _classes((None, 10.5), (10.5, None))},
    {"status": "unverified", "note": "from memory"},
    {"ranges": _range(None, 10, "phosphorus-buffering-index.colwell-adjusted")},
    {"ranges": _range(10, None, "exchange-capacity")},
    {"ranges": _range(10, None, "sodium-share")},
    {"analyte": "sodium-share", "method": "derived", "unit": "%", "sense": "excess"},
]


@pytest.mark.parametrize(
    ("code", "changes"), [(code, changes) for code, some in ONE_ROW.items() for changes in some], ids=str
)
def test_a_row_with_one_fault(code: str, changes: dict[str, Any]) -> None:
    """The fault is found alone, at its row, with a mend; a note that lacks is a warning."""
    problems = list(set_problems(guideline(row(id="first", analyte="ph", method="water", unit="pH"), row(**changes))))
    assert [problem.code for problem in problems] == [code]
    assert problems[0].place == place("rows", 1)
    assert problems[0].mend
    expected = Severity.WARNING if code == "unverified-without-note" else Severity.ERROR
    assert problems[0].severity is expected


@pytest.mark.parametrize("changes", SOUND, ids=str)
def test_a_sound_row(changes: dict[str, Any]) -> None:
    """Nothing is found."""
    assert list(set_problems(guideline(row(**changes)))) == []


def test_a_repeated_id_is_found() -> None:
    """Two rows of one id, at the second."""
    problems = list(set_problems(guideline(row(), row(land_uses=["crop"]))))
    assert [(problem.code, problem.place) for problem in problems] == [("repeated-id", place("rows", 1))]


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ({}, {}),
        ({"textures": ["sand", "loam"]}, {"textures": ["loam"]}),
        ({"ranges": _range(None, 20)}, {"ranges": _range(19, None)}),
        ({"any_layer_within": True}, {"any_layer_within": True, "top_cm": 5, "bottom_cm": 20}),
    ],
    ids=str,
)
def test_rows_that_speak_of_the_same_ground(first: dict[str, Any], second: dict[str, Any]) -> None:
    """Two rows of the same kinds of conditions that can both hold are found, at the second."""
    problems = list(set_problems(guideline(row(id="one", **first), row(id="two", **second))))
    assert [(problem.code, problem.place) for problem in problems] == [("rows-overlap", place("rows", 1))]


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ({}, {"textures": ["loam"]}),
        ({"textures": ["sand"]}, {"textures": ["loam"]}),
        ({"ranges": _range(None, 20)}, {"ranges": _range(20, None)}),
        ({"ranges": _range(None, 20)}, {"ranges": _range(None, 20, "exchange-capacity")}),
        ({}, {"top_cm": 10, "bottom_cm": 20}),
        ({}, {"any_layer_within": True, "bottom_cm": 30}),
        ({"goals": ["90"]}, {"goals": ["95"]}),
        ({}, {"method": "bray-1"}),
    ],
    ids=str,
)
def test_rows_that_keep_apart(first: dict[str, Any], second: dict[str, Any]) -> None:
    """Rows of other conditions, layers or methods, or with more conditions, may stand together."""
    made = guideline(row(id="one", **first), row(id="two", **second), goal="90" if "goals" in first else "")
    assert list(set_problems(made)) == []


def test_goals() -> None:
    """Where rows name goals the set names one of them; a set that overrides another may leave it to that."""
    rows = (row(goals=["90"]), row(id="two", goals=["95"]))
    assert [one.code for one in set_problems(guideline(*rows))] == ["goal-missing"]
    assert [one.code for one in set_problems(guideline(*rows, goal="85"))] == ["goal-unserved"]
    assert [one.code for one in set_problems(guideline(goal="85"))] == ["goal-unserved"]
    assert list(set_problems(guideline(*rows, goal="95"))) == []
    assert list(set_problems(guideline(*rows, overrides="other"))) == []
