"""Documents as HTML: structure without logic; everything a client wrote is escaped, an unknown name is a fault.

Each document speaks the language of its view, by the shipped template or by the practice's own above it.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any

from soilrota.documents.dates import long_day
from soilrota.documents.environments import ShippedHtml, own_environment, shipped_environment
from soilrota.documents.faults import TemplateFaultError
from soilrota.documents.labels import LabelsView
from soilrota.documents.own_templates import own_templates, rendered
from soilrota.documents.pack_views import FieldPackView
from soilrota.documents.report_views import FarmReportView
from soilrota.documents.views import CalendarView, ChecksView, ProgrammeView
from soilrota.language import speaking
from soilrota.model.documents import DocumentKind
from soilrota.problems import Severity

#: What each document shows.
VIEWS: dict[DocumentKind, type] = {
    DocumentKind.PROGRAMME: ProgrammeView,
    DocumentKind.FIELD_PACK: FieldPackView,
    DocumentKind.LABELS: LabelsView,
    DocumentKind.FARM_REPORT: FarmReportView,
    DocumentKind.FIELD_CALENDAR: CalendarView,
    DocumentKind.LABORATORY_CHECKS: ChecksView,
}
_View = ProgrammeView | FieldPackView | LabelsView | FarmReportView | CalendarView | ChecksView


def kind_of(view: object) -> DocumentKind:
    """Return which document a view is shown by."""
    return next(kind for kind, type_of_view in VIEWS.items() if isinstance(view, type_of_view))


def values_of(view: _View, day: date) -> dict[str, Any]:
    """Return what a template is given; `day` is the document's date."""
    return {"view": view, "day_iso": day.isoformat(), "day_words": long_day(day, view.language)}


def _html(view: _View, day: date, book: Path | None) -> str:
    """Return a document as HTML, in the language of its view.

    Raises:
        TemplateFaultError: the practice has a template of its own for it, and that cannot be used.
    """
    kind, values = kind_of(view), values_of(view, day)
    own = own_templates(book).of(kind) if book is not None else None
    with speaking(view.language):
        if own is None:
            return ShippedHtml(shipped_environment().get_template(kind.template).render(values))
        from soilrota.documents.template_checks import checked  # noqa: PLC0415 - few practices have templates

        for problem in checked(own, kind):
            if problem.severity is Severity.ERROR:
                raise TemplateFaultError(problem)
        return rendered(own_environment(own.sources), kind, values)


def programme_html(view: ProgrammeView, day: date, book: Path | None = None) -> str:
    """Return a programme as HTML.

    Args:
        view: what it shows.
        day: the document's date.
        book: the book's folder, for the practice's own templates; None for the shipped ones.

    Raises:
        TemplateFaultError: the practice's own template cannot be used.
    """
    return _html(view, day, book)


def calendar_html(view: CalendarView, day: date, book: Path | None = None) -> str:
    """Return the field calendar as HTML; arguments and errors as of `programme_html`."""
    return _html(view, day, book)


def checks_html(view: ChecksView, day: date, book: Path | None = None) -> str:
    """Return the document of laboratory checks as HTML; arguments and errors as of `programme_html`."""
    return _html(view, day, book)


def labels_html(view: LabelsView, day: date, book: Path | None = None) -> str:
    """Return a sheet of labels as HTML; arguments and errors as of `programme_html`."""
    return _html(view, day, book)


def field_pack_html(view: FieldPackView, day: date, book: Path | None = None) -> str:
    """Return the field pack of a visit as HTML; arguments and errors as of `programme_html`."""
    return _html(view, day, book)


def farm_report_html(view: FarmReportView, day: date, book: Path | None = None) -> str:
    """Return the report of a farm as HTML; arguments and errors as of `programme_html`."""
    return _html(view, day, book)


def season_html(values: Mapping[str, Any]) -> str:
    """Return the season page as HTML; what it is made of stands in `soilrota.documents.season_page`.

    Whoever calls it speaks the language of the page.
    """
    return shipped_environment().get_template("season.html.jinja").render(values)
