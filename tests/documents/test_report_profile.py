"""The depth profile: a bar a layer from the surface down."""

from __future__ import annotations

from xml.etree import ElementTree

from soilrota.documents.report_profile import ProfileLayer, depth_profile

SVG = "{http://www.w3.org/2000/svg}"


def test_bars_follow_values_downwards() -> None:
    """The longest bar is the largest value; a censored one is hollow; the words are the numbers."""
    layers = [
        ProfileLayer("0–10 cm", 5.4, "5.4"),
        ProfileLayer("10–20 cm", 2.7, "2.7"),
        ProfileLayer("20–30 cm", 0.5, "<0.5", is_censored=True),
    ]
    root = ElementTree.fromstring(depth_profile(layers, "Exchangeable Al"))
    title = root.find(f"{SVG}title")
    assert title is not None
    assert title.text == "Exchangeable Al by depth: 5.4 at 0–10 cm, 2.7 at 10–20 cm, <0.5 at 20–30 cm."
    bars = list(root.iter(f"{SVG}rect"))
    widths, tops = zip(*((float(bar.get("width", 0)), float(bar.get("y", 0))) for bar in bars), strict=True)
    assert widths[0] == 2 * widths[1] > widths[2]
    assert list(tops) == sorted(tops)
    assert bars[2].get("fill") == "#ffffff"


def test_nothing_at_all_is_still_a_picture() -> None:
    """Where every value is nought."""
    assert "0 at 0–10 cm" in depth_profile([ProfileLayer("0–10 cm", 0.0, "0")], "Nitrate N")
