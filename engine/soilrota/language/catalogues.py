"""The catalogues of words beside this module: one gettext file a language, `<language>.po`, English itself none."""

from __future__ import annotations

from functools import cache
from gettext import GNUTranslations, NullTranslations
from io import BytesIO
from pathlib import Path

_FOLDER = Path(__file__).parent
#: The language of the texts in the code.
ENGLISH = "en"


def languages() -> tuple[str, ...]:
    """Return the languages in which everything is said, by their first subtag.

    >>> languages()
    ('en', 'es')
    """
    return tuple(sorted((ENGLISH, *(path.stem for path in catalogue_files()))))


def catalogue_files() -> tuple[Path, ...]:
    """Return the files of the catalogues, by name."""
    return tuple(sorted(_FOLDER.glob("*.po")))


@cache
def catalogue_of(language: str) -> NullTranslations:
    """Return the words of a language; those of English, or of one without a catalogue, are the code's own.

    Args:
        language: language tag such as `es-US`; its first subtag counts.
    """
    file = _FOLDER / f"{language.partition('-')[0]}.po"
    if file not in catalogue_files():
        return NullTranslations()
    from babel.messages.mofile import write_mo  # noqa: PLC0415 - English needs no catalogue
    from babel.messages.pofile import read_po  # noqa: PLC0415

    compiled = BytesIO()
    with file.open("rb") as source:
        write_mo(compiled, read_po(source, locale=file.stem))
    compiled.seek(0)
    return GNUTranslations(compiled)
