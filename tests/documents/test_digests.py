"""Digests of what a document is made of."""

from __future__ import annotations

from pathlib import Path

from soilrota.documents.digests import engine_parts, view_digest
from tests.documents.made import BOOK, example, view


def test_every_part_that_decides_the_bytes_is_named() -> None:
    """Templates, styles, fonts, words of other languages, the writer and the subsetter."""
    names = dict(engine_parts())
    for name in (
        "soilrota",
        "weasyprint",
        "subsetter",
        "programme.css",
        "programme.html.jinja",
        "fonts/OpenSans-Bold.ttf",
        "language/es.po",
        "babel",
    ):
        assert names[name]


def test_another_logo_is_another_document(tmp_path: Path) -> None:
    """The logo's bytes count, not its name."""
    shown = view(example("juniper-start"))
    (tmp_path / "logo.png").write_bytes(b"another")
    assert view_digest(shown, tmp_path) != view_digest(shown, BOOK)
    assert view_digest(shown, BOOK) == view_digest(view(example("juniper-start")), BOOK)
