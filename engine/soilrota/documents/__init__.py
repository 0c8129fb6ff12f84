"""What people read: views, words, pictures and PDF. In: model values. Out: bytes of documents.

Importing this package does not load the PDF writer; only rendering does.
"""

from soilrota.documents.calendar_table import calendar_table
from soilrota.documents.calendar_view import calendar_view
from soilrota.documents.digests import engine_parts, view_digest
from soilrota.documents.fonts import missing_glyphs
from soilrota.documents.pdf import render_calendar, render_programme, warm_up
from soilrota.documents.programme_view import programme_view
from soilrota.documents.views import CalendarView, ProgrammeView

__all__ = [
    "CalendarView",
    "ProgrammeView",
    "calendar_table",
    "calendar_view",
    "engine_parts",
    "missing_glyphs",
    "programme_view",
    "render_calendar",
    "render_programme",
    "view_digest",
    "warm_up",
]
