"""The one door for files."""

from __future__ import annotations

from pathlib import Path

import pytest
from weasyprint.urls import FatalURLFetchingError

from soilrota.documents.fetcher import BookFetcher


def test_named_pictures_are_served(tmp_path: Path) -> None:
    """A picture that was given by name comes with its kind."""
    file = tmp_path / "logo.png"
    file.write_bytes(b"picture")
    answer = BookFetcher({"logo.png": file}).fetch("book:logo.png")
    assert answer.read() == b"picture"
    assert answer.content_type == "image/png"


@pytest.mark.parametrize(
    "url", ["book:other.png", "file:///etc/passwd", "https://example.org/", "data:image/png;base64,x"]
)
def test_everything_else_is_fatal(tmp_path: Path, url: str) -> None:
    """Nothing else is served, not even from the same folder."""
    with pytest.raises(FatalURLFetchingError):
        BookFetcher({"logo.png": tmp_path / "logo.png"}).fetch(url)


def test_a_picture_that_is_gone_is_fatal(tmp_path: Path) -> None:
    """A file that went away after the check fails the document."""
    with pytest.raises(FatalURLFetchingError, match="cannot be read"):
        BookFetcher({"logo.png": tmp_path / "logo.png"}).fetch("book:logo.png")
