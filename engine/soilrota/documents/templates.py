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
from soilrota.documents.views import CalendarView, ChecksView, ProgrammeView
from soilrota.files import shipped
from soilrota.language import say, say_as, say_count
from soilrota.language.figures import counted


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
    environment.globals.update(say=say, say_as=say_as, say_count=say_count, counted=counted)
    return environment


def programme_html(view: ProgrammeView, day: date) -> str:
    """Return a programme as HTML; `day` is the document's date."""
    template = _environment().get_template("programme.html.jinja")
    return template.render(view=view, day_iso=day.isoformat(), day_words=long_day(day, view.language))


def calendar_html(view: CalendarView, day: date) -> str:
    """Return the field calendar as HTML; `day` is the document's date."""
    template = _environment().get_template("field_calendar.html.jinja")
    return template.render(view=view, day_iso=day.isoformat(), day_words=long_day(day, view.language))


def checks_html(view: ChecksView, day: date) -> str:
    """Return the document of laboratory checks as HTML; `day` is the document's date."""
    template = _environment().get_template("laboratory_checks.html.jinja")
    return template.render(view=view, day_iso=day.isoformat(), day_words=long_day(day, view.language))


def labels_html(view: LabelsView, day: date) -> str:
    """Return a sheet of labels as HTML; `day` is the document's date."""
    template = _environment().get_template("labels.html.jinja")
    return template.render(view=view, day_iso=day.isoformat())


def field_pack_html(view: FieldPackView, day: date) -> str:
    """Return the field pack of a visit as HTML; `day` is the document's date."""
    template = _environment().get_template("field_pack.html.jinja")
    return template.render(view=view, day_iso=day.isoformat(), day_words=long_day(day, view.language))


def season_html(values: Mapping[str, Any]) -> str:
    """Return the season page as HTML; what it is made of stands in `soilrota.documents.season_page`."""
    return _environment().get_template("season.html.jinja").render(values)


def farm_report_html(view: FarmReportView, day: date) -> str:
    """Return the report of a farm as HTML; `day` is the document's date."""
    template = _environment().get_template("farm_report.html.jinja")
    return template.render(view=view, day_iso=day.isoformat(), day_words=long_day(day, view.language))
