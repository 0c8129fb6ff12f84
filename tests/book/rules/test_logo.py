"""The practice's logo."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from PIL import Image

from tests.book.small_book import Book


def png(width: int = 40, height: int = 20) -> bytes:
    """Return a small picture."""
    file = io.BytesIO()
    Image.new("1", (width, height)).save(file, "PNG")
    return file.getvalue()


def test_a_logo_that_can_be_printed(book: Book) -> None:
    """A PNG inside the book is fine."""
    (book.root / "logo.png").write_bytes(png())
    book.add("practice.yaml", "logo: logo.png\n")
    assert book.shared_problems() == ()


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (None, "logo-missing"),
        (b"GIF89a", "logo-not-an-image"),
        (png()[:16] + (6000).to_bytes(4) + (5000).to_bytes(4) + png()[24:], "logo-too-large"),
    ],
)
def test_a_logo_that_cannot_be_printed(book: Book, content: bytes | None, code: str) -> None:
    """A missing file, another kind by content, or 30 megapixels by header are refused at the line of the logo."""
    if content is not None:
        (book.root / "logo.png").write_bytes(content)
    book.add("practice.yaml", "logo: logo.png\n")
    problem = book.only(shared=True)
    assert (problem.code, problem.place.line) == (code, book.line("practice.yaml", "logo:"))


def test_a_logo_outside_the_book(book: Book, tmp_path_factory: pytest.TempPathFactory) -> None:
    """A link out of the book is not followed."""
    outside: Path = tmp_path_factory.mktemp("outside") / "logo.png"
    outside.write_bytes(png())
    (book.root / "logo.png").symlink_to(outside)
    book.add("practice.yaml", "logo: logo.png\n")
    assert book.only(shared=True).code == "logo-outside-book"
