"""Reports of one client made at once, without the night: what is missing is said in them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from soilrota.batch.faults import CannotStartError
from soilrota.batch.outputs import advice_name, farm_of_advice, is_signed, prepare_output
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
        answer = make_reports(order)
        if answer.problems:
            raise CannotStartError("the practice's own template cannot be used; nothing was written", answer.problems)
        made = answer.reports
        _sweep(request.out, client, farms, {report.file for report in made})
        for report in made:
            replace_file(request.out / report.file, report.content or b"")
            stands = "signed" if is_signed(report.file) else f"a draft, {adviser} must sign"
            lines.append(f"{request.out / report.file}: {stands}")
    except OSError as fault:
        raise CannotStartError(f"the reports could not be written: {fault.strerror}") from fault
    return tuple(lines)


def _sweep(out: Path, client: Client, farms: tuple[str, ...], made: set[str]) -> None:
    """Remove what was made for the farms earlier and does not stand any more: drafts of what is signed, old maps."""
    for folder in (out / advice_name(client.id, "", is_signed=signed) for signed in (True, False)):
        for path in sorted(folder.iterdir()) if folder.is_dir() else ():
            farm = farm_of_advice(path.name, [one.id for one in client.farms])
            if farm in farms and path.relative_to(out).as_posix() not in made:
                path.unlink()


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
