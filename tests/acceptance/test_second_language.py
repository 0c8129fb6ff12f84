"""Clients that read Spanish: their documents and workbook say so; everybody else's stay English."""

from __future__ import annotations

import io
import re
from pathlib import Path

import openpyxl
import pypdf
import pytest

from tests.acceptance.signed_book import CLIENT, DAY, make_signable
from tests.acceptance.small_book import CLIENTS, edit, night, outcomes, write_book

#: A client whose visit is at hand.
UNSAMPLED = "birch-farm"
#: A decimal point between digits, which Spanish does not write; not part of a telephone number or a date.
_POINT = re.compile(r"(?<![\d.])\d+\.\d(?![\d.])")


@pytest.fixture(scope="module")
def out(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return what a night makes of a book of which two clients read Spanish."""
    folder = tmp_path_factory.mktemp("spanish")
    book = make_signable(write_book(folder / "book"))
    for client in (CLIENT, UNSAMPLED):
        edit(book / "clients" / client / "client.yaml", "country: AU\n", "country: AU\nlanguage: es-ES\n")
    assert night(book, folder / "out", as_of=DAY).returncode == 0
    assert outcomes(folder / "out") == dict.fromkeys(CLIENTS, "made")
    return folder / "out"


def read(file: Path) -> tuple[str, str]:
    """Return language and words of a PDF."""
    reader = pypdf.PdfReader(io.BytesIO(file.read_bytes()))
    return str(reader.trailer["/Root"]["/Lang"]), " ".join(
        " ".join(page.extract_text() for page in reader.pages).split()
    )


@pytest.mark.parametrize(
    ("file", "words"),
    [
        (f"clients/{CLIENT}/programme.pdf", ("Programa de muestreo de suelos", "Mejor día", "marzo de 2027", "4,6")),
        (f"clients/{UNSAMPLED}/field_pack-home-1.pdf", ("Carpeta de campo", "Hoja de custodia", "marzo de 2027")),
        (f"clients/{UNSAMPLED}/labels-home-1.pdf", ("pasto",)),
        (f"drafts/{CLIENT}/farm_report-home.pdf", ("Informe de la finca", "BORRADOR", "4,6", "de 2027")),
    ],
)
def test_documents_speak_the_clients_language(out: Path, file: str, words: tuple[str, ...]) -> None:
    """Headings, days and numbers; the page counter too."""
    language, text = read(out / file)
    assert language == "es-ES"
    assert [one for one in words if one not in text] == []
    assert _POINT.findall(text) == []
    assert not re.search(r"\b\d+ of \d+\b|\bthe\b|\band\b", text.replace("Lou Example", ""))


def test_the_workbook_speaks_it_and_the_table_stays_a_table(out: Path) -> None:
    """Sheets and headings are Spanish; the columns of the CSV are what programs read."""
    folder = out / "clients" / CLIENT
    book = openpyxl.load_workbook(folder / "results.xlsx")
    assert "Valores" in book.sheetnames
    header = (folder / "results.csv").read_text(encoding="utf-8-sig").splitlines()[0]
    assert header.isascii()
    assert "value" in header.split(",")


def test_others_are_not_touched(out: Path) -> None:
    """Clients that name no language read the practice's; so does the practice."""
    language, text = read(out / "clients" / "cedar-farm" / "programme.pdf")
    assert language == "en-GB"
    assert "Soil sampling programme" in text
    page = (out / "season.html").read_text(encoding="utf-8")
    assert '<html lang="en-GB"' in page
