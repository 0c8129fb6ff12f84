"""What a picture is, and how large, from the first bytes of its file: nothing is decoded."""

from __future__ import annotations

from dataclasses import dataclass

_PNG = b"\x89PNG\r\n\x1a\n"
_JPEG = b"\xff\xd8"
#: Markers of JPEG frames (SOF0 to SOF15 without DHT, JPG and DAC), ITU-T T.81, table B.1.
_FRAMES = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}
#: Markers that stand alone, without a length: TEM and RST0 to RST7.
_ALONE = frozenset({0x01, *range(0xD0, 0xD8)})


@dataclass(frozen=True, slots=True)
class ImageHeader:
    """What a picture's header says: `media_type`, `width` and `height` [pixel]."""

    media_type: str
    width: int
    height: int

    @property
    def megapixels(self) -> float:
        """Number of pixels [megapixel]."""
        return self.width * self.height / 1e6


def image_header(content: bytes) -> ImageHeader | None:
    """Return what the header of a PNG or JPEG says; None for anything else, whatever its file is called.

    References:
        1. W3C (2003). Portable Network Graphics Specification, second edition, sections 5.2 and 11.2.2.
        2. ITU-T Recommendation T.81 (1992), annex B.
    """
    if content.startswith(_PNG):
        return _png(content)
    return _jpeg(content) if content.startswith(_JPEG) else None


def _png(content: bytes) -> ImageHeader | None:
    """Read width and height from the IHDR chunk, which comes first."""
    if content[12:16] != b"IHDR" or len(content) < 24:  # noqa: PLR2004 - signature, length, name, width, height
        return None
    return _sized("image/png", int.from_bytes(content[16:20]), int.from_bytes(content[20:24]))


def _jpeg(content: bytes) -> ImageHeader | None:
    """Walk the marker segments to the frame header, which holds height and width."""
    at = 2
    while at + 9 <= len(content) and content[at] == 0xFF:  # noqa: PLR2004 - every marker starts so
        marker = content[at + 1]
        if marker == 0xFF:  # noqa: PLR2004 - fill byte
            at += 1
        elif marker in _ALONE:
            at += 2
        elif marker in _FRAMES:
            return _sized(
                "image/jpeg", int.from_bytes(content[at + 7 : at + 9]), int.from_bytes(content[at + 5 : at + 7])
            )
        else:
            at += 2 + int.from_bytes(content[at + 2 : at + 4])
    return None


def _sized(media_type: str, width: int, height: int) -> ImageHeader | None:
    """Return the header of a picture that has pixels."""
    return ImageHeader(media_type, width, height) if width and height else None
