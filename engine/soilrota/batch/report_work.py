"""What a worker does for the reports of one client: every farm's, as a draft or signed. It writes nothing."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from soilrota.batch.advising import ClientAdvice
from soilrota.batch.faults import BatchError
from soilrota.batch.fingerprints import same_file
from soilrota.batch.outputs import advice_name, report_name
from soilrota.batch.reading import read_client, read_shared
from soilrota.batch.report_grounds import report_grounds, waits_until
from soilrota.batch.report_values import MadeReport, ReportAnswer, ReportOrder
from soilrota.batch.spreading import spreader_documents
from soilrota.batch.values import made_document
from soilrota.documents import ReportGrounds, render_report, report_view, view_digest
from soilrota.documents.faults import TemplateFaultError
from soilrota.model.client import Client, Farm
from soilrota.problems import Problem, in_order


class ReportFaultError(BatchError):
    """The reports cannot be made: a file of the book got an error since the client was looked at."""


def make_reports(order: ReportOrder) -> ReportAnswer:
    """Make the reports of a client that are due.

    A report of which the view is the one in the ledger keeps its date; any other is dated by the as-of date. A farm
    without results has no report; a farm that never had one gets none while bags of its last visit are awaited.

    Raises:
        ReportFaultError: a file of the book has an error.
    """
    client = _read(order)
    grounds, until = report_grounds(order.root, client, order.as_of)
    reports: list[MadeReport] = []
    problems: list[Problem] = []
    for farm in _farms(client, order):
        waits = waits_until(client, farm.id, grounds.missing, order.wait_days)
        if waits is not None and order.as_of <= waits and not order.at_once and not _was_made(order, farm):
            until = min(until, waits)
            continue
        try:
            report = _report(order, grounds, farm)
        except TemplateFaultError as fault:
            problems.append(fault.problem)
            reports += _kept(order, grounds, farm)
            continue
        reports += (report, *_spreader_files(order, grounds, farm, report.known.day))
    if problems:
        until = order.as_of  # it is tried, and said, every night until it is mended
    return ReportAnswer(order.client, max(until, order.as_of), tuple(reports), in_order(problems))


def _read(order: ReportOrder) -> Client:
    """Return the client."""
    shared, problems = read_shared(order.root)
    if shared is None:
        raise ReportFaultError(f"the files that all clients share got errors during the night: {problems[0]}")
    client, problems = read_client(order.root, order.client, shared)
    if client is None:
        raise ReportFaultError(f"the client's files got errors during the night: {problems[0]}")
    return client


def _farms(client: Client, order: ReportOrder) -> Iterator[Farm]:
    """Yield the farms that are asked for and have results."""
    measured = {result.farm for result in client.results}
    for farm in client.farms:
        if farm.id in measured and (not order.farms or farm.id in order.farms):
            yield farm


def _was_made(order: ReportOrder, farm: Farm) -> bool:
    """Return whether the farm has a report already, signed or not."""
    return any(report_name(order.client, farm.id, is_signed=signed) in order.known for signed in (True, False))


def _report(order: ReportOrder, grounds: ReportGrounds, farm: Farm) -> MadeReport:
    """Return the report of a farm, rendered only where the file on disk is not the one of its view."""
    view = report_view(grounds, farm)
    digest = view_digest(view, order.root)
    file = report_name(order.client, farm.id, is_signed=view.signature.is_signed)
    known = order.known.get(file)
    same = known is not None and known.view == digest
    if known is not None and same and same_file(order.out / file, known.output):
        return MadeReport(file, known, None)
    day: date = known.day if known is not None and same else order.as_of
    content = render_report(view, day, order.root)
    return MadeReport(file, made_document(file, day, content, digest).known, content)


def _kept(order: ReportOrder, grounds: ReportGrounds, farm: Farm) -> Iterator[MadeReport]:
    """Yield the report of a farm as it stands, where a new one cannot be made; and its files, which need no template.

    A report that lost its signature does not stand among the signed ones.
    """
    file = report_name(order.client, farm.id, is_signed=grounds.sign.is_signed)
    known = order.known.get(file)
    if known is not None and same_file(order.out / file, known.output):
        yield MadeReport(file, known, None)
    yield from _spreader_files(order, grounds, farm, known.day if known is not None else order.as_of)


def _spreader_files(order: ReportOrder, grounds: ReportGrounds, farm: Farm, day: date) -> Iterator[MadeReport]:
    """Yield the rate maps and the rates of a farm for the spreader, drafts like its report."""
    mixes = tuple(mix for mix in grounds.mixes if mix.farm == farm.id)
    for name, content in sorted(spreader_documents(grounds.client, ClientAdvice(mixes=mixes)).items()):
        file = advice_name(order.client, name, is_signed=grounds.sign.is_signed)
        made = made_document(file, day, content).known
        stands = order.known.get(file) == made and same_file(order.out / file, made.output)
        yield MadeReport(file, made, None if stands else content)
