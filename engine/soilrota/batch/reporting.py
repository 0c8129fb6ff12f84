"""Reports of one client made at once, without the night: what is missing is said in them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from soilrota.batch.faults import CannotStartError
from soilrota.batch.outputs import prepare_output, report_name
from soilrota.batch.reading import read_sound_client
from soilrota.batch.report_values import ReportOrder
from soilrota.batch.report_work import make_reports
from soilrota.files import nearest_name, replace_file
from soilrota.model.client import Client


@dataclass(frozen=True, slots=True)
class ReportsRequest:
    """What is asked: the book's folder, the client, the output folder, the farm (empty for all), the as-of date."""

    root: Path
    client: str
    out: Path
    farm: str
    as_of: date | None


def write_reports(request: ReportsRequest, today: Callable[[str], date]) -> tuple[str, ...]:
    """Make the reports of a client and write them where a night would; return in words what lies where.

    Args:
        request: what is asked.
        today: returns today's date in a time zone (IANA name); asked only where no as-of date is given.

    Raises:
        CannotStartError: the client or the farm is not there, has errors or no results, or nothing can be written.
    """
    client = read_sound_client(request.root, request.client)
    farms = _farms(client, request.farm)
    prepare_output(request.root, request.out)
    day = request.as_of or today(client.practice.time_zone)
    order = ReportOrder(request.root, request.out, client.id, day, at_once=True, farms=farms)
    adviser = client.practice.people[client.adviser].name
    lines: list[str] = []
    try:
        for report in make_reports(order).reports:
            farm = next(one for one in farms if report.file.endswith(f"/farm_report-{one}.pdf"))
            signed = report.file == report_name(client.id, farm, is_signed=True)
            (request.out / report_name(client.id, farm, is_signed=not signed)).unlink(missing_ok=True)
            replace_file(request.out / report.file, report.content or b"")
            stands = "signed" if signed else f"a draft, {adviser} must sign"
            lines.append(f"{request.out / report.file}: {stands}")
    except OSError as fault:
        raise CannotStartError(f"the reports could not be written: {fault.strerror}") from fault
    return tuple(lines)


def _farms(client: Client, farm: str) -> tuple[str, ...]:
    """Return the farms of which reports are made.

    Raises:
        CannotStartError: there is no such farm, or it has no results.
    """
    names = [one.id for one in client.farms]
    if farm and farm not in names:
        near = nearest_name(farm, names)
        raise CannotStartError(f"{client.id} has no farm {farm}" + (f"; did you mean {near}?" if near else ""))
    measured = {result.farm for result in client.results}
    found = tuple(one for one in names if one in measured and (not farm or one == farm))
    if not found:
        whose = f"farm {farm} of {client.id}" if farm else client.id
        raise CannotStartError(f"there is nothing to report: {whose} has no results yet")
    return found
