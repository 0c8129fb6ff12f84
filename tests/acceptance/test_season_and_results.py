"""The season page and the results of clients by the command line, over a book with accepted results."""

from __future__ import annotations

import csv
import io
import json
import re
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import openpyxl

from tests.acceptance.signed_book import LABORATORY
from tests.acceptance.small_book import CLIENTS, edit, last_run, night, tree

RESULTS = (
    "report,issue,sampled,received,reported,farm,zone,protocol,bag,top_cm,bottom_cm,analyte,method,qualifier,value,unit,"
    "laboratory,as_reported,origin\r\n"
)


def _data(page: str) -> dict[str, Any]:
    """Return what the page's script reads."""
    found = re.search(r'id="data">(.*?)</script>', page, re.DOTALL)
    assert found is not None
    data: dict[str, Any] = json.loads(found[1])
    return data


def _links(page: str) -> set[str]:
    """Return every file that the page leads to."""
    data = _data(page)
    papers = [one for client in data["clients"] for one in client[2]] + [
        one for task in data["tasks"] for one in task[17]
    ]
    return {unquote(address) for _, address in papers} | set(re.findall(r'<a href="([^#"]+)"', page))


def test_every_link_leads_to_a_file_and_every_paper_is_linked(book: Path, out: Path) -> None:
    """All tasks stand in the page; its links are the papers of the output folder; a problem needs somebody first."""
    assert night(book, out).returncode == 0
    page = (out / "season.html").read_text(encoding="utf-8")
    links = _links(page)
    assert all((out / link).is_file() for link in links)
    papers = {name for name in tree(out) if name.endswith(".pdf")}
    assert papers <= links
    rows = list(csv.DictReader(io.StringIO((out / "season.csv").read_text(encoding="utf-8"))))
    assert {row["adviser"] for row in rows} == {"Ann Lee"}
    edit(book / "clients" / "birch-farm" / "client.yaml", "hemisphere: southern", "hemisphere: south")
    night(book, out, as_of="2027-02-16")
    page = (out / "season.html").read_text(encoding="utf-8")
    assert "Birch Farm: clients/birch-farm/client.yaml:" in page
    assert re.search(r'<time class="as-of"[^>]* datetime="2027-02-16">16 February 2027</time>', page)
    (birch,) = [task for task in _data(page)["tasks"] if task[0] == CLIENTS.index("birch-farm")]
    assert birch[18] == 0


def test_results_come_with_the_first_result_and_go_with_the_last(book: Path, out: Path) -> None:
    """No file for a client without results; both after a report; none again where the record is gone."""
    night(book, out)
    assert not list(out.rglob("results.*"))
    record = book / "records" / "results" / "alder-farm"
    record.mkdir(parents=True)
    (book / "laboratories").mkdir()
    (book / "laboratories" / "plain-bench.yaml").write_text(LABORATORY, encoding="utf-8")
    values = (("ph", "cacl2", "", "5.2", "pH"), ("phosphorus", "colwell", "<", "5", "mg/kg"))
    lines = (
        f"R1,1,2026-02-20,,2026-03-05,home,flat,topsoil,,0,10,{','.join(value)},plain-bench,,\r\n" for value in values
    )
    (record / "r1.csv").write_text(RESULTS + "".join(lines), encoding="utf-8", newline="")
    done = night(book, out, as_of="2027-02-16")
    assert done.returncode == 0, done.stdout + done.stderr
    folder = out / "clients" / "alder-farm"
    sheet = openpyxl.load_workbook(folder / "results.xlsx")["Bags"]
    assert [cell.value for cell in sheet[2]][-3:-1] == [5.2, "<5"]
    assert len((folder / "results.csv").read_text(encoding="utf-8").splitlines()) == 3
    documents = {one["file"]: one["date"] for entry in last_run(out)["clients"] for one in entry["documents"]}
    assert documents["clients/alder-farm/results.xlsx"] == "2027-02-16"
    assert [name for name in documents if "results" in name and "alder" not in name] == []
    assert "clients/alder-farm/results.xlsx" in _links((out / "season.html").read_text(encoding="utf-8"))
    (record / "r1.csv").unlink()
    assert night(book, out, as_of="2027-02-17").returncode == 0
    assert not list(out.rglob("results.*"))
    assert len(CLIENTS) == len(list(out.rglob("programme.pdf")))
