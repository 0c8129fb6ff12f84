"""What a document is made of, as digests: the same digest means the same bytes, so nothing is rendered again."""

from __future__ import annotations

import ctypes.util
import hashlib
import json
from dataclasses import asdict
from functools import cache
from importlib.metadata import version
from pathlib import Path

from soilrota import __version__
from soilrota.documents.report_views import FarmReportView
from soilrota.documents.views import ProgrammeView
from soilrota.files import file_digest, shipped
from soilrota.language.catalogues import catalogue_files
from soilrota.model.documents import TEMPLATES


def view_digest(view: ProgrammeView | FarmReportView, book: Path | None = None) -> str:
    """Return the SHA-256 of everything that a document's bytes depend on, its date apart.

    Args:
        view: what it shows.
        book: the book's folder, for the bytes of the logo and the practice's own templates; None where the view has no
            logo.
    """
    logo = file_digest(book / view.logo) if view.logo and book is not None else ""
    parts = [asdict(view), engine_parts(), logo]
    if book is not None and (book / TEMPLATES).is_dir():
        from soilrota.documents.own_templates import own_templates  # noqa: PLC0415 - few practices have templates
        from soilrota.documents.templates import kind_of  # noqa: PLC0415

        own = own_templates(book).of(kind_of(view))
        parts += [own.digest()] if own is not None else []
    content = json.dumps(parts, ensure_ascii=False, sort_keys=True)
    return hashlib.sha256(content.encode()).hexdigest()


@cache
def engine_parts() -> tuple[tuple[str, str], ...]:
    """Return name and digest or version of every part of the engine that decides the bytes of a document."""
    folder = shipped("report_templates")
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    return (
        ("soilrota", __version__),
        ("weasyprint", version("weasyprint")),
        ("subsetter", ctypes.util.find_library("harfbuzz-subset") or "fonttools"),
        ("babel", version("babel")),
        *((path.relative_to(folder).as_posix(), file_digest(path)) for path in files),
        *((f"language/{path.name}", file_digest(path)) for path in catalogue_files()),
    )
