"""`soilrota explain`: why a zone's window, or a judgement of its results, is what it is."""

from __future__ import annotations

from typing import Any

from soilrota.batch.explaining import explain_analyte, explain_zone
from soilrota.cli.exit_codes import ExitCode
from soilrota.cli.speech import say
from soilrota.cli.today import today


def explain(chosen: Any) -> int:
    """Print the explanation that the arguments ask for, and return the exit code."""
    if chosen.analyte:
        lines = explain_analyte(chosen.book, chosen.client, chosen.zone, chosen.analyte)
    else:
        lines = explain_zone(chosen.book, chosen.client, chosen.zone, chosen.as_of, today)
    for line in lines:
        say(line)
    return ExitCode.GOOD
