"""The chart of values over the years: drawn within its frame, told in words that agree with the numbers."""

from __future__ import annotations

import re
from datetime import date
from xml.etree import ElementTree

from soilrota.documents.report_chart import HEIGHT, WIDTH, Against, ChartPoint, value_chart

SVG = "{http://www.w3.org/2000/svg}"
POINTS = (
    ChartPoint(date(2022, 2, 1), 12.0, None, "12 mg/kg", why_not="Olsen P"),
    ChartPoint(date(2024, 2, 1), 31.0, (24.0, 39.0), "31 mg/kg", ends_words=("24", "39 mg/kg")),
    ChartPoint(date(2025, 2, 1), 10.0, None, "<10 mg/kg", "<"),
    ChartPoint(date(2026, 2, 1), 35.0, (27.0, 44.0), "35 mg/kg", ends_words=("27", "44 mg/kg")),
)
AGAINST = Against(28.0, 31.0, "target 28 to 31", 34.0, "line 34 mg/kg [unverified]", "line 34 mg/kg")


def drawn(*points: ChartPoint, against: Against = AGAINST) -> ElementTree.Element:
    """Return a chart as parsed."""
    return ElementTree.fromstring(value_chart(points, against, "Colwell P, 0–10 cm"))


def words(root: ElementTree.Element) -> list[str]:
    """Return the words of a picture."""
    return [str(one.text) for one in root.iter(f"{SVG}text")]


def test_the_alternative_says_what_is_shown() -> None:
    """Every value with its interval and year, what does not compare, what it is held against."""
    title = drawn(*POINTS).find(f"{SVG}title")
    assert title is not None
    assert title.text == (
        "Colwell P, 0–10 cm: 12 mg/kg in 2022, not comparable: Olsen P; "
        "31 mg/kg (between 24 and 39 mg/kg) in 2024; <10 mg/kg in 2025; "
        "35 mg/kg (between 27 and 44 mg/kg) in 2026. "
        "Held against: line 34 mg/kg [unverified]; target 28 to 31."
    )


def test_what_is_drawn() -> None:
    """A point a comparable value, a square for one that is not, the line broken between; labels at the right."""
    root = drawn(*POINTS)
    circles = list(root.iter(f"{SVG}circle"))
    assert len(circles) == 3
    assert circles[1].get("fill") == "#ffffff", "a censored value is hollow"
    assert any(one.get("stroke-dasharray") == "2 2" for one in root.iter(f"{SVG}line"))
    assert {"35 mg/kg", "line 34 mg/kg", "target 28 to 31", "2026", "2022"} <= set(words(root))


def test_nothing_leaves_the_frame_and_labels_do_not_meet() -> None:
    """However close value, line and target lie."""
    close = Against(34.9, 35.1, "target 34.9 to 35.1", 35.0, "line 35 mg/kg", "line 35 mg/kg")
    for against in (AGAINST, close, Against()):
        for points in (POINTS, POINTS[1:2], POINTS[1:]):
            root = drawn(*points, against=against)
            right = []
            for one in root.iter(f"{SVG}text"):
                x, y = float(one.get("x", 0)), float(one.get("y", 0))
                assert 0 <= x <= WIDTH
                assert 0 < y <= HEIGHT
                if x > WIDTH - 96:
                    right.append(y)
            gaps = [after - before for before, after in zip(sorted(right), sorted(right)[1:], strict=False)]
            assert all(gap >= 8 for gap in gaps)


def test_higher_values_stand_higher() -> None:
    """The scale goes up."""
    low, _, high = list(drawn(*POINTS[1:]).iter(f"{SVG}circle"))
    assert float(high.get("cy", 0)) < float(low.get("cy", 0))


def test_words_are_escaped() -> None:
    """A name with a sign of markup does no harm."""
    text = value_chart(POINTS[1:2], Against(), "A & <B>")
    assert "A &amp; &lt;B&gt;: 31 mg/kg" in text
    assert not re.search(r"<B>", text)
