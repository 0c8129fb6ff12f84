"""What people read: views, words, pictures and PDF. In: model values. Out: bytes of documents.

Importing this package does not load the PDF writer; only rendering does.
"""

from soilrota.documents.calendar_table import calendar_table
from soilrota.documents.calendar_view import calendar_view
from soilrota.documents.checks_view import checks_view
from soilrota.documents.correction_sentences import correction_sentence
from soilrota.documents.digests import engine_parts, view_digest
from soilrota.documents.fonts import missing_glyphs
from soilrota.documents.layout_sentences import layout_sentences
from soilrota.documents.maps import zone_letters
from soilrota.documents.pack_view import pack_view
from soilrota.documents.pack_views import FieldPackView
from soilrota.documents.pdf import (
    render_calendar,
    render_checks,
    render_field_pack,
    render_programme,
    render_report,
    warm_up,
)
from soilrota.documents.programme_view import programme_view
from soilrota.documents.report_grounds import ReportGrounds
from soilrota.documents.report_view import report_view
from soilrota.documents.report_views import FarmReportView
from soilrota.documents.result_finding_sentences import Names, result_finding_sentence
from soilrota.documents.results_data import ResultsData, results_data, results_digest
from soilrota.documents.results_table import results_table
from soilrota.documents.results_workbook import results_workbook
from soilrota.documents.season_page import render_season_page
from soilrota.documents.season_view import PaperLink, SeasonClient, SeasonTask, SeasonView, WantedGroup
from soilrota.documents.task_view import Found
from soilrota.documents.views import CalendarView, ChecksView, ProgrammeView

__all__ = [
    "CalendarView",
    "ChecksView",
    "FarmReportView",
    "FieldPackView",
    "Found",
    "Names",
    "PaperLink",
    "ProgrammeView",
    "ReportGrounds",
    "ResultsData",
    "SeasonClient",
    "SeasonTask",
    "SeasonView",
    "WantedGroup",
    "calendar_table",
    "calendar_view",
    "checks_view",
    "correction_sentence",
    "engine_parts",
    "layout_sentences",
    "missing_glyphs",
    "pack_view",
    "programme_view",
    "render_calendar",
    "render_checks",
    "render_field_pack",
    "render_programme",
    "render_report",
    "render_season_page",
    "report_view",
    "result_finding_sentence",
    "results_data",
    "results_digest",
    "results_table",
    "results_workbook",
    "view_digest",
    "warm_up",
    "zone_letters",
]
