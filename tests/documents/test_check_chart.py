"""The control chart: everything inside, marks that differ in shape, words for who cannot see it."""

from __future__ import annotations

import re
from xml.etree import ElementTree as ET

import pytest

from soilrota.documents import check_chart as check_chart_module
from soilrota.documents.check_chart import HEIGHT, WIDTH, chart_key, check_chart, state_mark
from soilrota.model.check_charts import CheckChart, CheckState
from tests.documents.checks import LANGUAGE, LIMITS, a_chart

SVG = "{http://www.w3.org/2000/svg}"
CHARTS = {
    "one": a_chart(0.2),
    "same day": a_chart(0.2, 0.4, -0.3, days=[0, 0, 0]),
    "off": a_chart(0.1, -0.3, 2.2, 2.6, 2.9),
    "far off": a_chart(0.1, 40.0, -40.0, 0.1),
    "untold": a_chart(1.0, 1.5, qualifier="<"),
    "many": a_chart(*[(number * 7 % 11 - 5) / 2.5 for number in range(40)]),
    "years": a_chart(0.1, 0.2, days=[0, 9000]),
}


def drawn(chart: CheckChart) -> ET.Element:
    """Return the chart as a tree."""
    return ET.fromstring(check_chart(chart, chart.points, LIMITS, "Colwell P <x>", LANGUAGE))


@pytest.mark.parametrize("name", CHARTS)
def test_everything_lies_inside(name: str) -> None:
    """Marks, words and lines stay within the picture, however far off or long the checks are."""
    for node in drawn(CHARTS[name]).iter():
        for key, most in (("x", WIDTH), ("cx", WIDTH), ("x1", WIDTH), ("x2", WIDTH)):
            assert 0 <= float(node.get(key, 0)) <= most
        for key in ("y", "cy", "y1", "y2"):
            assert 0 <= float(node.get(key, 0)) <= HEIGHT
        if node.tag == f"{SVG}text" and node.get("text-anchor", "start") == "start":
            assert float(node.get("x", 0)) + 4.6 * len(node.text or "") <= WIDTH


@pytest.mark.parametrize("name", CHARTS)
def test_lines_and_days_are_worded(name: str) -> None:
    """The three kinds of lines say their figure; the axis has at least one day and no more than have room."""
    words = [node.text or "" for node in drawn(CHARTS[name]).iter(f"{SVG}text")]
    for said in ("30.0 mg/kg: assigned value", "36.0 mg/kg: action line, 3 sd above", "26.0 mg/kg: warning line"):
        assert any(one.startswith(said) for one in words)
    days = [one for one in words if one[:3].isalpha() and one[-4:].isdigit()]
    assert 1 <= len(days) <= 8


def test_the_alternative_says_every_check() -> None:
    """Day, value, deviation and state of each check, the assigned value, and the name, escaped once."""
    title = drawn(CHARTS["off"]).findtext(f"{SVG}title")
    assert title is not None
    assert title.startswith("Control chart of Colwell P <x>, assigned value 30.0 mg/kg. 5 January 2026, 30.2 mg/kg, ")
    assert title.count("; ") == 4
    assert title.endswith("27 April 2026, 35.8 mg/kg, 2.9 sd above, off.")
    untold = drawn(CHARTS["untold"]).findtext(f"{SVG}title")
    assert untold is not None
    assert untold.endswith("<33 mg/kg, cannot tell.")


def test_a_doubt_is_a_band_with_its_name() -> None:
    """The time of doubtful results is drawn and named where it has room; a laboratory in line has none."""
    assert "results in doubt" in "".join(drawn(CHARTS["off"]).itertext())
    assert "results in doubt" not in "".join(drawn(CHARTS["one"]).itertext())


def test_a_figure_covers_no_mark() -> None:
    """A check days after one that lies where its figure would stand: the figure stands on the other side."""
    tree = drawn(a_chart(0.1, 0.2, 2.2, 2.9, 2.4, days=[0, 90, 280, 360, 369]))
    diamonds = [node.get("d", "") for node in tree.iter(f"{SVG}path") if node.get("d", "").endswith("Z")]
    marks = [(float(node.get("cx", 0)), float(node.get("cy", 0))) for node in tree.iter(f"{SVG}circle")]
    corners = [[float(number) for number in re.findall(r"[\d.]+", path)] for path in diamonds]
    marks += [(sum(some[::2]) / len(some[::2]), sum(some[1::2]) / len(some[1::2])) for some in corners]
    boxes = [
        [float(node.get(name, 0)) for name in ("x", "y", "width", "height")]
        for node in tree.iter(f"{SVG}rect")
        if node.get("fill-opacity")
    ]
    assert len(marks) == 5
    assert len(boxes) == 2
    for left, top, wide, high in boxes:
        assert not [(x, y) for x, y in marks if left < x < left + wide and top < y < top + high]


@pytest.mark.parametrize("times", [1, 2, 3])
def test_words_of_the_key_never_meet(monkeypatch: pytest.MonkeyPatch, times: int) -> None:
    """Where another language is longer, entries move on, and then down."""
    monkeypatch.setattr(check_chart_module, "state_word", lambda state: f"{state.name} " * times)
    monkeypatch.setattr(check_chart_module, "say", lambda words: f"{words} " * times)
    tree = ET.fromstring(chart_key())
    entries = [node for node in tree.iter(f"{SVG}text") if node.get("text-anchor") is None]
    assert len(entries) == 6
    rows: dict[float, list[tuple[float, float]]] = {}
    for node in entries:
        left = float(node.get("x", 0))
        rows.setdefault(float(node.get("y", 0)), []).append((left, left + 4.6 * len(node.text or "")))
    assert max(rows) <= float(tree.get("height", 0))
    assert (len(rows) > 1) == (times > 1)
    for spans in rows.values():
        ends = [0.0, *(end for _, end in spans)]
        assert all(start >= end for (start, _), end in zip(spans, ends, strict=False))
        assert ends[-1] <= WIDTH


def test_marks_differ_in_shape() -> None:
    """Without colour the four states are told apart, and the key shows each."""
    marks = [state_mark(state) for state in CheckState]
    assert len({ET.fromstring(mark).findtext(f"{SVG}title") for mark in marks}) == 4
    assert all(word in chart_key() for word in ("in line", "watch", "off", "cannot tell"))
