"""Where cores come from and how many: free ground, patterns, walking order, points kept, cores for a precision.

`layout_of` is the way in. It loads shapely and pyproj, which take a while: it is loaded when it is first asked for.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from soilrota.layout.zone_layout import layout_of

__all__ = ["layout_of"]


def __getattr__(name: str) -> object:
    """Return `layout_of`, loading what it needs the first time."""
    if name != "layout_of":
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from soilrota.layout.zone_layout import layout_of  # noqa: PLC0415  loads shapely and pyproj

    return layout_of
