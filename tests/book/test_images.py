"""Headers of pictures, against Pillow."""

from __future__ import annotations

import io
import zlib

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from soilrota.book.images import ImageHeader, image_header


def picture(kind: str, width: int, height: int, **options: object) -> bytes:
    """Return a picture written by Pillow."""
    file = io.BytesIO()
    Image.new("RGB", (width, height), "white").save(file, kind, **options)
    return file.getvalue()


@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
@pytest.mark.parametrize(("width", "height"), [(1, 1), (40, 30), (300, 7)])
def test_the_header_says_what_pillow_wrote(kind: str, width: int, height: int) -> None:
    """Kind, width and height are those that the picture was written with."""
    header = image_header(picture(kind, width, height))
    assert header == ImageHeader(f"image/{kind.lower()}", width, height)


def test_progressive_and_commented_jpeg() -> None:
    """A progressive frame, and segments of any length before it, are understood."""
    header = image_header(picture("JPEG", 64, 48, progressive=True, comment=b"x" * 60_000))
    assert header == ImageHeader("image/jpeg", 64, 48)


def test_pixels_are_counted_without_decoding() -> None:
    """A header that claims 400 megapixels is believed, though the file is a few bytes."""
    chunk = b"IHDR" + (20_000).to_bytes(4) + (20_000).to_bytes(4) + bytes([8, 2, 0, 0, 0])
    content = b"\x89PNG\r\n\x1a\n" + (13).to_bytes(4) + chunk + zlib.crc32(chunk).to_bytes(4)
    header = image_header(content)
    assert header is not None
    assert header.megapixels == 400


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"GIF89a\x01\x00\x01\x00",
        b"<svg xmlns='http://www.w3.org/2000/svg'/>",
        b"\x89PNG\r\n\x1a\n",
        b"\xff\xd8\xff\xd9",
    ],
)
def test_anything_else_is_no_picture(content: bytes) -> None:
    """Other kinds, and signatures with nothing behind them, are not pictures."""
    assert image_header(content) is None


@given(st.binary(max_size=80).map(lambda tail: b"\xff\xd8" + tail) | st.binary(max_size=80))
def test_any_bytes_give_an_answer(content: bytes) -> None:
    """No bytes raise, and a header always has pixels."""
    header = image_header(content)
    assert header is None or header.megapixels > 0
