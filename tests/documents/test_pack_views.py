"""Views of the field pack are values that a template only places."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from typing import Any

from soilrota.documents import missing_glyphs, pack_view
from tests.documents.packs import a_pack


def _leaves(value: Any) -> list[Any]:
    """Return every value inside a view that is not a tuple or a view."""
    if isinstance(value, tuple):
        return [leaf for inner in value for leaf in _leaves(inner)]
    if is_dataclass(value):
        return [leaf for part in fields(value) for leaf in _leaves(getattr(value, part.name))]
    return [value]


def test_a_view_holds_words_and_switches_alone() -> None:
    """No number is left for the template to format, and every letter has a glyph."""
    view = pack_view(a_pack(zones=2))
    assert {type(leaf) for leaf in _leaves(view)} == {str, bool}
    assert missing_glyphs(view) == ()
