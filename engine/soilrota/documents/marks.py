"""The marks that stand beside a state: shapes first, so that they read in black and white."""

from __future__ import annotations

from html import escape

from soilrota.documents.svg import CLOSED, INK, OPEN, circle, line, path, text
from soilrota.documents.words import MARKS
from soilrota.language import marked_as, say_as
from soilrota.model.windows import State

SIZE = 9.0
_HALF = SIZE / 2


def state_mark(state: State) -> str:
    """Return the mark of a state as SVG; its alternative names the shape, since the words beside it name the state."""
    mark = MARKS[state]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{SIZE}" height="{SIZE}" viewBox="0 0 9 9" '
        f'font-family="Open Sans"><title>{escape(say_as("mark", _SHAPES[mark]))}</title>{_DRAWN[mark]}</svg>'
    )


_RING = circle(_HALF, _HALF, 3.7, fill="none", stroke=OPEN, stroke_width=1.2)
_DARK_RING = circle(_HALF, _HALF, 3.7, fill="none", stroke=CLOSED, stroke_width=1.2)
_LETTER = {"text_anchor": "middle", "font_weight": "bold"}
_SHAPES = {
    "full": marked_as("mark", "filled circle"),
    "half": marked_as("mark", "half-filled circle"),
    "ring": marked_as("mark", "ring"),
    "bang": marked_as("mark", "warning triangle"),
    "cross": marked_as("mark", "crossed ring"),
    "query": marked_as("mark", "ring with a question mark"),
    "bag": marked_as("mark", "bag"),
    "tick": marked_as("mark", "tick"),
}
_DRAWN = {
    "full": circle(_HALF, _HALF, 4.2, fill=OPEN),
    "half": _RING + path("M4.5 0.8A3.7 3.7 0 0 1 4.5 8.2Z", fill=OPEN),
    "ring": _RING,
    "bang": path("M4.5 0.4L8.8 8.4H0.2Z", fill=CLOSED) + text(_HALF, 7.6, "!", 6.5, **{**_LETTER, "fill": "#ffffff"}),
    "cross": _DARK_RING
    + line(2.4, 2.4, 6.6, 6.6, stroke=CLOSED, stroke_width=1.2)
    + line(6.6, 2.4, 2.4, 6.6, stroke=CLOSED, stroke_width=1.2),
    "query": _DARK_RING + text(_HALF, 6.9, "?", 6.5, **_LETTER),
    "bag": path("M1.2 3H7.8L7.2 8.4H1.8Z M3 3V1.2H6V3", fill="none", stroke=INK, stroke_width=0.9),
    "tick": path("M1 4.8L3.6 7.6L8.2 1.6", fill="none", stroke=INK, stroke_width=1.3),
}
