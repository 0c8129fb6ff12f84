"""`soilrota report`: the farm reports of one client, at once."""

from __future__ import annotations

from typing import Any

from soilrota.batch.reporting import ReportsRequest, write_reports
from soilrota.cli.exit_codes import ExitCode
from soilrota.cli.speech import say
from soilrota.cli.today import today


def report(chosen: Any) -> int:
    """Make the reports that the arguments ask for, say where they lie, and return the exit code."""
    request = ReportsRequest(
        root=chosen.book, client=chosen.client, out=chosen.out, farm=chosen.farm, as_of=chosen.as_of
    )
    for line in write_reports(request, today):
        say(line)
    return ExitCode.GOOD
