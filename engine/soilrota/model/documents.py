"""What a document needs besides its content: date, language, files it may use; and what was made of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from pathlib import Path

#: Folder of a book with the practice's own templates.
TEMPLATES = "templates"


class DocumentKind(StrEnum):
    """A document whose template a practice may change, named as its template is."""

    PROGRAMME = "programme"
    FIELD_PACK = "field_pack"
    LABELS = "labels"
    FARM_REPORT = "farm_report"
    FIELD_CALENDAR = "field_calendar"
    LABORATORY_CHECKS = "laboratory_checks"

    @property
    def template(self) -> str:
        """Return the name of its template, shipped or the practice's own."""
        return f"{self}.html.jinja"


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


@dataclass(frozen=True, slots=True)
class Colours:
    """Colours of the practice's documents as `#rrggbb`, dark enough on white; charts and maps keep their own.

    Attributes:
        heading: of headings and of the rules beneath them.
        accent: of the bars beside what matters most.
    """

    heading: str = "#26332c"
    accent: str = "#4f7a5b"


#: Of a practice that names none.
HOUSE_COLOURS = Colours()
