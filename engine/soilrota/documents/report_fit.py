"""The first page of a farm report: its map is made as small as it must be, so that it stands where the page has room.

The page is laid out once with a small mark in place of the map. What is left below the mark is the room for the map; a
map that would need to be less than seven tenths of its size, so that its words could hardly be read, goes to the next
page as it is.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import replace

from soilrota.documents.report_views import FarmReportView

#: Names of the places where the map begins, and where all that belongs to it ends.
BEGIN, END = "map", "map-end"
#: Where each name stands on the first page: left and upper edge [px].
Places = Mapping[str, tuple[float, float]]
#: Least share of its own size that a map may be shrunk to [-].
LEAST = 0.7
_MM = 96 / 25.4
#: Lower edge of the text on a page, and room inside the frame of the map; as `programme.css` has them [px].
_BOTTOM = (297 - 20) * _MM
_WIDEST = (210 - 2 * 17 - 2 * 1.5) * _MM - 2
_MARK = 10.0
_SPARE = 2 * _MM
_SIZE = re.compile(r'<svg [^>]*?width="([0-9.]+)" height="([0-9.]+)"')


def with_fitting_map(view: FarmReportView, places: Callable[[FarmReportView], Places]) -> FarmReportView:
    """Return a report of which the map is no higher than the first page has room for.

    Args:
        view: the report.
        places: lays a report out and returns the places of its first page.
    """
    size = _SIZE.match(view.map.map)
    if size is None:
        return view
    width, height = float(size[1]), float(size[2])
    height *= min(1.0, _WIDEST / width)
    found = places(_first_page_alone(view))
    if BEGIN not in found or END not in found:
        return view
    room = _BOTTOM - _SPARE - (found[END][1] - _MARK)
    if room >= height or room < LEAST * height:
        return view
    return replace(view, map=replace(view.map, height=f"{room / _MM:.1f}mm"))


def _first_page_alone(view: FarmReportView) -> FarmReportView:
    """Return a report that has little beyond its first page, with a small mark in place of the map."""
    mark = f'<svg xmlns="http://www.w3.org/2000/svg" width="{_MARK:g}" height="{_MARK:g}"><title>{BEGIN}</title></svg>'
    return replace(
        view,
        map=replace(view.map, map=mark),
        tables=(),
        zones=(),
        priorities=(),
        shopping=None,
        protocols=(),
        samples=(),
        corrections=(),
        sources=(),
    )
