"""The templates: structure without logic; everything a client wrote is escaped, an unknown name is a fault."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from functools import cache
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from soilrota.documents.dates import long_day
from soilrota.documents.labels import LabelsView
from soilrota.documents.pack_views import FieldPackView
from soilrota.documents.report_views import FarmReportView
from soilrota.documents.said_markup import SPOKEN
from soilrota.documents.views import CalendarView, ChecksView, ProgrammeView
from soilrota.files import shipped
from soilrota.language import speaking

_View = ProgrammeView | CalendarView | ChecksView | FieldPackView | FarmReportView | LabelsView


def _picture(markup: str) -> Markup:
    """Mark SVG of our own as markup; every word in it was escaped when it was drawn."""
    return Markup(markup)  # noqa: S704


@cache
def _environment() -> Environment:
    """Return the environment of the shipped templates."""
    environment = Environment(
        loader=FileSystemLoader(shipped("report_templates")),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["picture"] = _picture
    environment.globals.update(SPOKEN)
    return environment


def _html(name: str, view: _View, day: date) -> str:
    """Return a document as HTML, in the language of its view."""
    template = _environment().get_template(name)
    with speaking(view.language):
        return template.render(view=view, day_iso=day.isoformat(), day_words=long_day(day, view.language))


def programme_html(view: ProgrammeView, day: date) -> str:
    """Return a programme as HTML; `day` is the document's date."""
    return _html("programme.html.jinja", view, day)


def calendar_html(view: CalendarView, day: date) -> str:
    """Return the field calendar as HTML; `day` is the document's date."""
    return _html("field_calendar.html.jinja", view, day)


def checks_html(view: ChecksView, day: date) -> str:
    """Return the document of laboratory checks as HTML; `day` is the document's date."""
    return _html("laboratory_checks.html.jinja", view, day)


def labels_html(view: LabelsView, day: date) -> str:
    """Return a sheet of labels as HTML; `day` is the document's date."""
    return _html("labels.html.jinja", view, day)


def field_pack_html(view: FieldPackView, day: date) -> str:
    """Return the field pack of a visit as HTML; `day` is the document's date."""
    return _html("field_pack.html.jinja", view, day)


def season_html(values: Mapping[str, Any]) -> str:
    """Return the season page as HTML; what it is made of stands in `soilrota.documents.season_page`.

    Whoever calls it speaks the language of the page.
    """
    return _environment().get_template("season.html.jinja").render(values)


def farm_report_html(view: FarmReportView, day: date) -> str:
    """Return the report of a farm as HTML; `day` is the document's date."""
    return _html("farm_report.html.jinja", view, day)
