"""The practice's logo: a picture in the book that can be printed."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from soilrota.book.folders import in_book
from soilrota.book.images import image_header
from soilrota.book.limits import limits
from soilrota.problems import Place, Problem, error

#: Bytes [B] of a picture that are read at the most: a JPEG may carry a long comment before its size.
_HEADER_BYTES = 1 << 20


def logo_can_be_printed(root: Path, logo: str, place: Place) -> Iterator[Problem]:
    """The logo is a PNG or JPEG inside the book, not too large; only its header is read.

    Args:
        root: the book's folder.
        logo: path relative to it; empty without a logo.
        place: where the logo is named.
    """
    if not logo:
        return
    path = root / logo
    if not in_book(root, path):
        mend = "copy the picture into the book's folder"
        yield error("logo-outside-book", place, f"{logo} lies outside the book", "a file of the book", mend)
    elif not path.is_file():
        yield error("logo-missing", place, f"there is no file {logo}", "a picture in the book", "correct the name")
    else:
        with path.open("rb") as file:
            header = image_header(file.read(_HEADER_BYTES))
        most = limits().logo_megapixels
        if header is None:
            mend = "save the picture as PNG or JPEG"
            yield error("logo-not-an-image", place, f"{logo} is neither PNG nor JPEG", "a PNG or JPEG", mend)
        elif header.megapixels > most:
            found = f"{logo} has {header.width} x {header.height} pixels"
            yield error("logo-too-large", place, found, f"at most {most:g} megapixels", "make it smaller")
