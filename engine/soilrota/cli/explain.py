"""`soilrota explain`: why a zone's window is what it is, and what would change it."""

from __future__ import annotations

from typing import Any

from soilrota.batch.explaining import explain_zone
from soilrota.cli.exit_codes import ExitCode
from soilrota.cli.speech import say
from soilrota.cli.today import today


def explain(chosen: Any) -> int:
    """Print the explanation that the arguments ask for, and return the exit code."""
    for line in explain_zone(chosen.book, chosen.client, chosen.zone, chosen.as_of, today):
        say(line)
    return ExitCode.GOOD
