"""What an answer about a file rests on and changes."""

from __future__ import annotations

from soilrota.batch.intake_values import IntakeAnswer, ResultsFile
from tests.batch.test_check_records import ONE


def test_what_an_answer_touches() -> None:
    """Clients whose results it writes, and laboratories whose check samples it holds; else nothing."""
    files = (ResultsFile("alder-farm", "a.csv", b""), ResultsFile("alder-farm", "b.csv", b""))
    assert IntakeAnswer("digest").touched == frozenset()
    assert IntakeAnswer("digest", files=files, checks=(ONE, ONE)).touched == {"alder-farm", "checks of north-bench"}
