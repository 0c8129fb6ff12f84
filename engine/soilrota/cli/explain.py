"""`soilrota explain`: why a zone's window, a judgement of its results, or an advised amount is what it is."""

from __future__ import annotations

from typing import Any

from soilrota.batch.explaining import Question, explain_subject, explain_zone
from soilrota.cli.exit_codes import ExitCode
from soilrota.cli.speech import say
from soilrota.cli.today import today


def explain(chosen: Any) -> int:
    """Print the explanation that the arguments ask for, and return the exit code."""
    if chosen.subject:
        asked = Question(chosen.book, chosen.client, chosen.zone, chosen.subject, chosen.as_of)
        lines = explain_subject(asked, today)
    else:
        lines = explain_zone(chosen.book, chosen.client, chosen.zone, chosen.as_of, today)
    for line in lines:
        say(line)
    return ExitCode.GOOD
