"""From HTML to a tagged PDF (PDF/UA-1), the same bytes for the same input, with nothing from outside."""

from __future__ import annotations

import gc
import logging
import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, date, datetime
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from soilrota.documents.faults import AssetRefusedError, RenderingError, TemplateFaultError
from soilrota.documents.long_words import has_long_words
from soilrota.documents.pack_views import FieldPackView
from soilrota.documents.report_fit import Places, with_fitting_map
from soilrota.documents.report_views import FarmReportView
from soilrota.documents.views import CalendarView, ChecksView, ProgrammeView
from soilrota.files import shipped

_View = TypeVar("_View", ProgrammeView, CalendarView, ChecksView, FieldPackView, FarmReportView)

_STYLES = "programme.css"
#: Come after the other styles, each for one document alone.
_PACK_STYLES, _CHECK_STYLES, _REPORT_STYLES = "field_pack.css", "laboratory_checks.css", "farm_report.css"
#: Comes last, where a table holds a word that must break inside to fit its column.
_LONG_WORDS_STYLES = "long_words.css"
_LOGGER = "weasyprint"
_GC_THRESHOLD = (50_000, 20, 50)


def warm_up() -> None:
    """Load the PDF writer, its fonts and styles once for a worker; later documents start at once.

    Nothing loaded by then is looked at again by the garbage collector, which otherwise takes a tenth of the time.
    """
    _resources()
    _further_styles(_PACK_STYLES)
    gc.collect()
    gc.freeze()
    gc.set_threshold(*_GC_THRESHOLD)


@cache
def _resources(styles: str = _STYLES) -> tuple[Any, Any]:
    """Return the font configuration and the parsed styles that all documents of a process share."""
    # The PDF writer's text library reads this when its fonts are first asked for: only our own fonts are seen.
    os.environ["FONTCONFIG_FILE"] = str(shipped("report_templates") / "fonts" / "fonts.conf")
    from weasyprint import CSS  # noqa: PLC0415  # a second of loading that nothing but rendering needs
    from weasyprint.text.fonts import FontConfiguration  # noqa: PLC0415

    fonts = FontConfiguration()
    return fonts, CSS(filename=str(shipped("report_templates") / styles), font_config=fonts)


@cache
def _further_styles(styles: str) -> Any:
    """Return the parsed styles that only one document has."""
    fonts, _ = _resources()
    from weasyprint import CSS  # noqa: PLC0415

    return CSS(filename=str(shipped("report_templates") / styles), font_config=fonts)


def render_programme(view: ProgrammeView, day: date, book: Path | None = None) -> bytes:
    """Return a programme as PDF.

    Args:
        view: what it shows.
        day: the document's date.
        book: the book's folder, from which only the checked logo and the practice's own templates are read; None where
            the view has no logo.

    Raises:
        RenderingError: the writer logged an error, so that something would be missing.
        AssetRefusedError: something outside the templates and the logo was asked for.
        TemplateFaultError: the practice has a template of its own for it, and that cannot be used.
    """
    from soilrota.documents.templates import programme_html  # noqa: PLC0415

    return _document(programme_html, view, day, book)


def render_calendar(view: CalendarView, day: date, book: Path | None = None) -> bytes:
    """Return the field calendar as PDF; arguments and errors as of `render_programme`."""
    from soilrota.documents.templates import calendar_html  # noqa: PLC0415

    return _document(calendar_html, view, day, book)


def render_field_pack(view: FieldPackView, day: date, book: Path | None = None) -> bytes:
    """Return the field pack of a visit as PDF; arguments and errors as of `render_programme`."""
    from soilrota.documents.templates import field_pack_html  # noqa: PLC0415

    return _document(field_pack_html, view, day, book, _PACK_STYLES)


def render_checks(view: ChecksView, day: date, book: Path | None = None) -> bytes:
    """Return the document of laboratory checks as PDF; arguments and errors as of `render_programme`."""
    from soilrota.documents.templates import checks_html  # noqa: PLC0415

    return _document(checks_html, view, day, book, _CHECK_STYLES)


def render_report(view: FarmReportView, day: date, book: Path | None = None) -> bytes:
    """Return the report of a farm as PDF; arguments and errors as of `render_programme`."""
    from soilrota.documents.templates import farm_report_html  # noqa: PLC0415

    def places(shown: FarmReportView) -> Places:
        """Return the places of the first page of a report."""
        with blamed(shown, book):
            return _places(farm_report_html(shown, day, book), _logo(shown.logo, book), _further_styles(_REPORT_STYLES))

    return _document(farm_report_html, with_fitting_map(view, places), day, book, _REPORT_STYLES)


def _document(
    html: Callable[[_View, date, Path | None], str], view: _View, day: date, book: Path | None, styles: str = ""
) -> bytes:
    """Return a document as PDF, with the styles that it alone has."""
    more = (_further_styles(styles),) if styles else ()
    with blamed(view, book):
        return write_pdf(html(view, day, book), day, _logo(view.logo, book), more_styles=more)


@contextmanager
def blamed(view: object, book: Path | None) -> Iterator[None]:
    """Say where a template of the practice asks for what documents may not show.

    Args:
        view: what the document shows.
        book: the book's folder; None where only shipped templates are used.

    Raises:
        TemplateFaultError: instead of `AssetRefusedError`, where the practice has a template of its own.
    """
    try:
        yield
    except AssetRefusedError as refused:
        from soilrota.documents.own_templates import own_templates, refused_problem  # noqa: PLC0415
        from soilrota.documents.templates import kind_of  # noqa: PLC0415

        kind = kind_of(view)
        own = own_templates(book).of(kind) if book is not None else None
        if own is None or not own.sources:
            raise
        raise TemplateFaultError(refused_problem(own, kind, str(refused))) from refused


def _logo(logo: str, book: Path | None) -> dict[str, Path]:
    """Return the one file of the book that a document may show."""
    return {logo: book / logo} if logo and book is not None else {}


def write_pdf(
    html: str, day: date, assets: dict[str, Path], styles: str = _STYLES, more_styles: Sequence[Any] = ()
) -> bytes:
    """Return HTML as a tagged PDF of a date.

    Args:
        html: the document.
        day: its date.
        assets: the files of the book that it may show, by name.
        styles: the style sheet among the templates.
        more_styles: parsed styles beyond it.

    Raises:
        RenderingError: the writer logged an error.
        AssetRefusedError: something else was asked for.
    """
    fonts, sheet = _resources(styles)
    from weasyprint.urls import FatalURLFetchingError  # noqa: PLC0415

    from soilrota.documents.trees import document_of  # noqa: PLC0415

    with _dated(day), _errors() as errors, collector_resting():
        document = document_of(html, assets)
        try:
            content: bytes = document.write_pdf(
                stylesheets=[sheet, *more_styles, *_breaking(html)], font_config=fonts, pdf_variant="pdf/ua-1"
            )
        except FatalURLFetchingError as refused:
            raise AssetRefusedError(str(refused)) from refused
        del document
    if errors:
        raise RenderingError("; ".join(errors))
    return content


def _breaking(html: str) -> tuple[Any, ...]:
    """Return the styles that a document with long words in its tables has last."""
    return (_further_styles(_LONG_WORDS_STYLES),) if has_long_words(html) else ()


def _places(html: str, assets: dict[str, Path], more_styles: Any) -> Places:
    """Return where the named places of the first page of a document stand.

    Raises:
        AssetRefusedError: something was asked for that documents may not show.
    """
    fonts, sheet = _resources()
    from weasyprint.urls import FatalURLFetchingError  # noqa: PLC0415

    from soilrota.documents.trees import document_of  # noqa: PLC0415

    with collector_resting():
        document = document_of(html, assets)
        try:
            laid_out = document.render(stylesheets=[sheet, more_styles, *_breaking(html)], font_config=fonts)
        except FatalURLFetchingError as refused:
            raise AssetRefusedError(str(refused)) from refused
        found: Places = laid_out.pages[0].anchors
        del document, laid_out
        return found


@contextmanager
def collector_resting() -> Iterator[None]:
    """Keep the garbage collector from looking at a document while it grows; take away all of it at the end.

    A document is one web of boxes that hold each other, of which nothing can go before its end: looking through it
    every so often took a tenth of the time, and left the webs of several documents in memory.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
        gc.collect()


@contextmanager
def _dated(day: date) -> Iterator[None]:
    """Let the writer date what it makes by the document's own date, not by the clock."""
    before = os.environ.get("SOURCE_DATE_EPOCH")
    os.environ["SOURCE_DATE_EPOCH"] = str(int(datetime(day.year, day.month, day.day, tzinfo=UTC).timestamp()))
    try:
        yield
    finally:
        if before is None:
            del os.environ["SOURCE_DATE_EPOCH"]
        else:
            os.environ["SOURCE_DATE_EPOCH"] = before


class _Errors(logging.Handler):
    """Gathers what the writer logs as an error."""

    def __init__(self) -> None:
        super().__init__(logging.ERROR)
        self.said: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        """Keep one message."""
        self.said.append(record.getMessage())


@contextmanager
def _errors() -> Iterator[list[str]]:
    """Yield the list into which errors of the writer are gathered."""
    handler = _Errors()
    logger = logging.getLogger(_LOGGER)
    logger.addHandler(handler)
    try:
        yield handler.said
    finally:
        logger.removeHandler(handler)
