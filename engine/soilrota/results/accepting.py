"""From matched rows to the records that are kept: results, their table, and the name of its file."""

from __future__ import annotations

import csv
import hashlib
import io
import re
from collections.abc import Iterable
from datetime import date

from soilrota.model.intake import MatchedRow
from soilrota.model.results import Result

#: Columns of `schemas/results.table.json`, in the order in which they are written.
COLUMNS = (
    "report",
    "sampled",
    "reported",
    "farm",
    "zone",
    "protocol",
    "bag",
    "top_cm",
    "bottom_cm",
    "analyte",
    "method",
    "qualifier",
    "value",
    "unit",
    "laboratory",
    "issue",
    "received",
    "as_reported",
    "origin",
)
#: Digits kept of a value [-]: more than any laboratory tells, fewer than a conversion leaves behind.
_DIGITS = 12
#: Longest `as_reported` that the records hold [character].
_LONGEST_AS_REPORTED = 200
#: Longest part of a file's name that is made of a report number [character].
_LONGEST_SLUG = 60
_SLUG = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_LIKE_AN_ISSUE = re.compile(r"(.*-)?issue-[0-9]+")


def results_of(
    matched: MatchedRow, laboratory: str, issue: int, reported_fallback: date, origin: str
) -> tuple[Result, ...]:
    """Return the results of a matched row, in the order of its values, rounded to twelve digits.

    Args:
        matched: the row.
        laboratory: id of the laboratory.
        issue: issue of the report, from 1.
        reported_fallback: day of the report where the row gives none.
        origin: the row of the laboratory's file, `digest:number`.
    """
    row = matched.row
    return tuple(
        Result(
            report=row.report,
            sampled=matched.sampled,
            reported=row.reported or reported_fallback,
            farm=matched.farm,
            zone=matched.zone,
            protocol=matched.protocol,
            bag=matched.bag,
            top_cm=matched.top_cm,
            bottom_cm=matched.bottom_cm,
            analyte=value.analyte,
            method=value.method,
            qualifier=value.qualifier,
            value=float(f"{value.value:.{_DIGITS}g}"),
            unit=value.unit,
            laboratory=laboratory,
            place=value.place,
            issue=issue,
            received=row.received,
            as_reported=_seen(value.as_reported),
            origin=origin,
        )
        for value in row.values
    )


def _seen(text: str) -> str:
    """Return a text on one line, without characters that cannot be seen, as long as the records hold it."""
    seen = "".join(one if one.isprintable() else " " for one in text)
    return " ".join(seen.split())[:_LONGEST_AS_REPORTED].strip()


def results_table(results: Iterable[Result]) -> bytes:
    """Return a file of accepted results: UTF-8 CSV (RFC 4180, line feeds), sorted, each number as it reads back."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(COLUMNS)
    writer.writerows(_cells(result) for result in sorted(results, key=_order))
    return text.getvalue().encode()


def _order(result: Result) -> tuple[object, ...]:
    """Return where a result stands in its file; places and origins are left out, so that files can be compared."""
    ground = (result.farm, result.zone, result.protocol, result.top_cm, result.sampled)
    return (*ground, result.analyte, result.method, result.bottom_cm, result.bag, result.qualifier, result.value)


def _cells(result: Result) -> tuple[str, ...]:
    """Return the cells of a result, in the order of the columns."""
    days = {"sampled": result.sampled.isoformat(), "reported": result.reported.isoformat()}
    days["received"] = result.received.isoformat() if result.received else ""
    numbers = {name: plain_number(getattr(result, name)) for name in ("top_cm", "bottom_cm", "value")}
    written = {**days, **numbers, "issue": str(result.issue)}
    return tuple(written[name] if name in written else getattr(result, name) for name in COLUMNS)


def plain_number(number: float) -> str:
    """Return a number with the fewest digits that read back as the same.

    >>> plain_number(5.0), plain_number(0.05), plain_number(2.5e-07)
    ('5', '0.05', '2.5e-07')
    """
    return repr(float(number)).removesuffix(".0")


def report_file_name(laboratory: str, report: str, issue: int) -> str:
    """Return the name of the file of one issue of a report: another one for every laboratory, report and issue.

    A report number that is no id is shortened to one and told apart by a digest.

    >>> report_file_name("north-bench", "nb-24117", 1), report_file_name("north-bench", "nb-24117", 2)
    ('north-bench_nb-24117.csv', 'north-bench_nb-24117-issue-2.csv')
    >>> report_file_name("north-bench", "NB 24/117", 1)
    'north-bench_nb-24-117_0e4147c2.csv'
    """
    name = report
    if not _SLUG.fullmatch(report) or len(report) > _LONGEST_SLUG or _LIKE_AN_ISSUE.fullmatch(report):
        short = "-".join(re.findall(r"[a-z0-9]+", report.casefold()))[:_LONGEST_SLUG].strip("-")
        name = f"{short or 'report'}_{hashlib.sha256(report.encode()).hexdigest()[:8]}"
    return f"{laboratory}_{name}{f'-issue-{issue}' if issue > 1 else ''}.csv"
