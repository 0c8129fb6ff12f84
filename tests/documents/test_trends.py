"""Small trends."""

from __future__ import annotations

from datetime import date
from xml.etree import ElementTree

from hypothesis import given
from hypothesis import strategies as st

from soilrota.documents.trends import HEIGHT, WIDTH, TrendPoint, trend
from soilrota.language import speaking


def point(year: int, value: float, *, same: bool = True, censored: bool = False) -> TrendPoint:
    """Return a point of mid-February."""
    return TrendPoint(date(year, 2, 15), value, same, censored, f"{'<' if censored else ''}{value:g}")


def test_the_words_say_values_and_target() -> None:
    """The alternative agrees with the numbers drawn."""
    drawn = trend([point(2025, 28), point(2026, 31)], 28, 31, "Colwell P")
    assert "<title>Colwell P: 28 in 2025, 31 in 2026; target 28 to 31.</title>" in drawn
    assert "target 5.5 or more" in trend([point(2025, 5), point(2026, 5.1)], 5.5, None, "pH")
    assert "target 2 or less" in trend([point(2025, 5), point(2026, 5.1)], None, 2, "EC")


def test_values_by_another_method_are_not_joined() -> None:
    """A change of method leaves squares, a broken upright line, and no stroke between the two."""
    drawn = trend([point(2024, 14, same=False), point(2025, 15, same=False), point(2026, 31)], 28, 31, "P")
    assert drawn.count("<rect") == 3
    assert "stroke-dasharray" in drawn
    assert "<path" not in drawn
    assert "by another method" in drawn


def test_censored_values_are_open() -> None:
    """A value below detection is an open ring, printed with its sign."""
    drawn = trend([point(2025, 1, censored=True), point(2026, 1.5)], None, None, "S")
    assert 'fill="#ffffff"' in drawn
    assert "&lt;1 in 2025" in drawn


@given(st.lists(st.tuples(st.floats(0, 1e5), st.booleans(), st.booleans()), min_size=2, max_size=12), st.data())
def test_any_values_stay_inside(values: list[tuple[float, bool, bool]], data: st.DataObject) -> None:
    """Whatever the values and the target, the picture is well formed and its points lie inside."""
    edge = st.none() | st.floats(0, 1e5)
    low, high = sorted([data.draw(edge), data.draw(edge)], key=lambda one: (one is not None, one or 0))
    points = [point(2000 + year, value, same=same, censored=odd) for year, (value, same, odd) in enumerate(values[:-1])]
    points.append(point(2000 + len(values), values[-1][0]))
    root = ElementTree.fromstring(trend(points, low, high, "x"))
    for circle in root.iter("{http://www.w3.org/2000/svg}circle"):
        assert 0 <= float(circle.attrib["cx"]) <= WIDTH
        assert 0 <= float(circle.attrib["cy"]) <= HEIGHT


def test_a_target_takes_the_comma_of_the_language() -> None:
    """In the words beside the picture; where things stand is no word."""
    with speaking("es"):
        drawn = trend([point(2025, 3), point(2026, 4)], 2.5, None, "P")
    title = ElementTree.fromstring(drawn).findtext("{http://www.w3.org/2000/svg}title")
    assert title is not None
    assert "2,5" in title
