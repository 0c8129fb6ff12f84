"""Where small records lie."""

from __future__ import annotations

import subprocess
import sys
from datetime import date
from pathlib import Path

from soilrota.batch.record_files import signature_file
from soilrota.batch.signing_off import SignRequest, propose_signature, write_signature
from tests.acceptance.signed_book import CLIENT, DAY, make_signable


def test_a_signature_is_written_there(book: Path) -> None:
    """Where the step of reports looks for it."""
    as_of = date.fromisoformat(DAY)
    request = SignRequest(make_signable(book), CLIENT, "", as_of, "2027-03-15T00:00:00")
    assert not signature_file(book, CLIENT).exists()
    write_signature(request, propose_signature(request, lambda _: as_of))
    assert signature_file(book, CLIENT).is_file()


def test_a_quiet_night_loads_nothing_for_reports() -> None:
    """Neither words nor tables."""
    code = "import sys, soilrota.batch.paper_steps; assert not {'babel', 'yaml', 'weasyprint'} & set(sys.modules)"
    subprocess.run([sys.executable, "-c", code], check=True)
