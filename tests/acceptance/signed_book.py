"""The small book with results of one client and an adviser who may sign."""

from __future__ import annotations

from pathlib import Path

from tests.acceptance.small_book import edit

CLIENT = "alder-farm"
DAY = "2027-03-15"
RESULTS = """\
report,sampled,reported,farm,zone,protocol,top_cm,bottom_cm,analyte,method,value,unit,laboratory
R-1,2027-02-04,2027-02-20,home,flat,topsoil,0,10,ph,cacl2,4.6,pH,
R-1,2027-02-04,2027-02-20,home,flat,topsoil,0,10,phosphorus,colwell,18,mg/kg,
"""
LABORATORY = """\
name: Plain Bench
country: AU
turnaround_working_days: 10
courier_days: 1
"""


def make_signable(book: Path) -> Path:
    """Give the adviser a qualification and the first client results; return the book."""
    edit(book / "practice.yaml", "role: adviser}", "role: adviser, qualification: Agronomist}")
    (book / "laboratories").mkdir()
    (book / "laboratories" / "plain-bench.yaml").write_text(LABORATORY, encoding="utf-8")
    results = results_file(book)
    results.parent.mkdir(parents=True)
    results.write_text(RESULTS.replace(",\n", ",plain-bench\n"), encoding="utf-8")
    return book


def results_file(book: Path) -> Path:
    """Return the file of the client's results."""
    return book / "records" / "results" / CLIENT / "r-1.csv"


def signatures_file(book: Path) -> Path:
    """Return the file of the client's signatures."""
    return book / "records" / "signatures" / f"{CLIENT}.jsonl"
