"""The only door through which a document gets files: the checked pictures of its book, by name."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from weasyprint.urls import FatalURLFetchingError, URLFetcher, URLFetcherResponse

_TYPES = {".png": "image/png", ".jpg": "image/jpeg", ".jpeg": "image/jpeg"}


class BookFetcher(URLFetcher):  # type: ignore[misc]  # the library has no types
    """Serves `book:NAME` for the names it was given, and fails the document for anything else."""

    def __init__(self, assets: dict[str, Path]) -> None:
        super().__init__(allowed_protocols=("book",), allow_redirects=False)
        self._assets = assets

    def fetch(self, url: str, headers: dict[str, str] | None = None) -> Any:  # noqa: ARG002  # the library's form
        """Return one picture.

        Raises:
            FatalURLFetchingError: anything else was asked for, or the file cannot be read.
        """
        name = url.removeprefix("book:")
        file = self._assets.get(name) if url.startswith("book:") else None
        if file is None:
            raise FatalURLFetchingError(f"a document may not show {url!r}")
        try:
            content = file.read_bytes()
        except OSError as fault:
            raise FatalURLFetchingError(f"the picture {name!r} cannot be read: {fault.strerror}") from fault
        return URLFetcherResponse(url, body=content, headers={"Content-Type": _TYPES[file.suffix.lower()]})
