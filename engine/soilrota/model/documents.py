"""What a document needs besides its content: date, language, files it may use; and what was made of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path


@dataclass(frozen=True, slots=True)
class DocumentIdentity:
    """What stands on every document.

    Attributes:
        title: its title.
        subject: one sentence.
        author: the practice.
        language: language tag.
        day: the document's date: the as-of date of the night on which its content last changed.
    """

    title: str
    subject: str
    author: str
    language: str
    day: date


@dataclass(frozen=True, slots=True)
class Asset:
    """A file of the client or the practice that a document may show, checked before use.

    Attributes:
        name: the name by which templates refer to it.
        file: where it lies on disk.
        media_type: `image/png` or `image/jpeg`.
    """

    name: str
    file: Path
    media_type: str
