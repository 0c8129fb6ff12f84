"""Colours: what is written or drawn in them can be read on white paper and a white screen."""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.book.parts import SharedParts
from soilrota.problems import Problem, error

#: Contrast of text with its ground, WCAG 2.2, success criterion 1.4.3 (level AA) [-].
LEAST_CONTRAST = 4.5
_STEPS = 100


def colours_can_be_read(parts: SharedParts) -> Iterator[Problem]:
    """Every colour of the practice stands out enough from white."""
    for name, colour in parts.practice.data.get("colours", {}).items():
        contrast = contrast_with_white(colour)
        if contrast < LEAST_CONTRAST:
            # Rounded down: a contrast just below the limit is not printed as the limit.
            found = f"{colour} is too pale: its contrast with white is {int(contrast * 100) / 100:g}"
            expected = f"a contrast of at least {LEAST_CONTRAST:g} (WCAG 2.2, 1.4.3)"
            mend = f"take a darker one, for instance {darkened(colour)}"
            yield error("colour-too-pale", parts.practice.at("colours", name), found, expected, mend)


def contrast_with_white(colour: str) -> float:
    """Return the contrast ratio of a colour with white [-], 1 for white to 21 for black.

    Args:
        colour: `#rrggbb`.

    References:
        1. W3C (2023). Web Content Accessibility Guidelines 2.2, definitions of "contrast ratio" and "relative
           luminance".

    >>> round(contrast_with_white("#000000")), contrast_with_white("#ffffff"), round(contrast_with_white("#767676"), 2)
    (21, 1.0, 4.54)
    """
    red, green, blue = (_linear(value / 255) for value in _channels(colour))
    return 1.05 / (0.2126 * red + 0.7152 * green + 0.0722 * blue + 0.05)


def darkened(colour: str) -> str:
    """Return the lightest colour of the same hue that can be read.

    >>> darkened("#ffffff"), darkened("#26332c")
    ('#757575', '#26332c')
    """
    shades = (_shade(colour, step / _STEPS) for step in range(_STEPS, -1, -1))
    return next(shade for shade in shades if contrast_with_white(shade) >= LEAST_CONTRAST)


def _shade(colour: str, share: float) -> str:
    """Return a colour with each channel at a share of what it was."""
    return "#" + "".join(f"{int(value * share):02x}" for value in _channels(colour))


def _channels(colour: str) -> tuple[int, ...]:
    """Return red, green and blue, 0 to 255."""
    return tuple(bytes.fromhex(colour.removeprefix("#")))


def _linear(value: float) -> float:
    """Return a channel of sRGB (0 to 1) in linear light."""
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4  # noqa: PLR2004 - figures of WCAG
