"""Farm reports from night to night: a draft, signed, a draft again; never a draft among a client's documents."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pypdf
import pytest

from tests.acceptance.signed_book import CLIENT, DAY, make_signable, results_file
from tests.acceptance.small_book import edit, night, soilrota, write_book

DRAFT, SIGNED = f"drafts/{CLIENT}/farm_report-home.pdf", f"clients/{CLIENT}/farm_report-home.pdf"


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """Return a book of which one client has results."""
    return make_signable(write_book(tmp_path / "book"))


def reports(out: Path) -> list[tuple[str, str, bool]]:
    """Return what the last night says of reports, after a look at every file of the output folder."""
    for file in out.rglob("farm_report-*.pdf"):
        text = " ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(file.read_bytes())).pages)
        is_draft = file.relative_to(out).parts[0] == "drafts"
        assert ("DRAFT" in text) is is_draft
        assert ("Signed by" in text) is not is_draft
    said = json.loads((out / "run.json").read_text(encoding="utf-8"))["reports"]
    assert all((out / one["file"]).is_file() for one in said)
    assert len(list(out.rglob("farm_report-*.pdf"))) == len(said)
    return [(one["file"], one["date"], one["made"]) for one in said]


def test_from_draft_to_signed_and_back(book: Path, tmp_path: Path) -> None:
    """Dated by the night of the change; a quiet night makes nothing; the output folder can be thrown away."""
    out = tmp_path / "out"
    assert night(book, out, as_of=DAY).returncode == 0
    assert reports(out) == [(DRAFT, DAY, True)]
    assert night(book, out, as_of="2027-03-16").returncode == 0
    assert reports(out) == [(DRAFT, DAY, False)]
    assert soilrota("sign", book, CLIENT, "--as-of", "2027-03-16", "--yes").returncode == 0
    night(book, out, as_of="2027-03-17")
    assert reports(out) == [(SIGNED, "2027-03-17", True)]
    content = (out / SIGNED).read_bytes()
    (out / SIGNED).unlink()
    night(book, out, as_of="2027-03-18")
    assert reports(out) == [(SIGNED, "2027-03-17", True)]
    assert (out / SIGNED).read_bytes() == content
    edit(results_file(book), "4.6", "4.7")
    night(book, out, as_of="2027-03-19")
    assert reports(out) == [(DRAFT, "2027-03-19", True)]


def test_a_client_that_leaves_takes_its_reports_along(book: Path, tmp_path: Path) -> None:
    """Drafts too."""
    out = tmp_path / "out"
    night(book, out, as_of=DAY)
    (book / "clients" / CLIENT).rename(tmp_path / "gone")
    night(book, out, as_of="2027-03-16")
    assert reports(out) == []
    assert not (out / "drafts" / CLIENT).exists()
