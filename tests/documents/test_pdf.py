"""The PDF, read back by another library: text, tags, bookmarks, language; the same bytes; nothing from outside."""

from __future__ import annotations

import hashlib
import io
import os
import subprocess
import sys
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pypdf
import pypdfium2
import pytest

from soilrota.documents import ProgrammeView, render_programme
from soilrota.documents.faults import AssetRefusedError, RenderingError
from soilrota.documents.pdf import write_pdf
from soilrota.documents.templates import programme_html
from soilrota.model.documents import Colours
from tests.documents.made import AS_OF, BOOK, example, view

DAY = date(2027, 2, 15)


@cache
def programme(name: str) -> bytes:
    """Return the programme of an example client."""
    return render_programme(view(example(name)), AS_OF, BOOK)


def reader(content: bytes) -> pypdf.PdfReader:
    """Open a PDF."""
    return pypdf.PdfReader(io.BytesIO(content))


def text_of(content: bytes) -> str:
    """Return the words of a PDF, blanks folded."""
    return " ".join(" ".join(page.extract_text() for page in reader(content).pages).split())


def structure(node: Any) -> list[Any]:
    """Return every element of a structure tree."""
    node = node.get_object()
    if not isinstance(node, pypdf.generic.DictionaryObject):
        return []
    kids = node.get("/K", [])
    kids = kids if isinstance(kids, list) else [kids]
    return [node, *(inner for kid in kids for inner in structure(kid) if "/S" in inner or "/K" in inner)]


def test_it_says_what_it_is() -> None:
    """Title, author, language, tagging and the PDF/UA mark are there."""
    found = reader(programme("brolga-plains"))
    assert found.metadata is not None
    assert found.metadata.title == "Soil sampling programme: Brolga Plains Grain"
    assert found.metadata.author == "Merrow and Tarn Soil Practice"
    root = found.trailer["/Root"]
    assert root["/Lang"] == "en-AU"
    assert root["/MarkInfo"]["/Marked"]
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert b"pdfuaid" in root["/Metadata"].get_object().get_data()


def test_tags_have_headings_tables_and_alternatives() -> None:
    """The structure holds headings, table headers, lists; each picture has words."""
    elements = structure(reader(programme("brolga-plains")).trailer["/Root"]["/StructTreeRoot"])
    kinds = [element.get("/S") for element in elements]
    for kind in ("/H1", "/H2", "/H3", "/Table", "/TH", "/TD", "/L", "/LI", "/Figure"):
        assert kind in kinds
    figures = [element for element in elements if element.get("/S") == "/Figure"]
    assert figures
    assert all(str(element.get("/Alt", "")).strip() for element in figures)
    assert any("Map of Brolga Plains" in str(element["/Alt"]) for element in figures)


def test_bookmarks_follow_the_headings() -> None:
    """The outline has the farm and, below it, each zone."""
    titles: list[str] = []

    def walk(entries: Any) -> None:
        for entry in entries:
            if isinstance(entry, list):
                walk(entry)
            else:
                titles.append(entry.title)

    walk(reader(programme("brolga-plains")).outline)
    for title in ("Soil sampling programme", "What is to be done", "Brolga Plains", "A Paddock one", "F Far paddock"):
        assert title in titles


def test_numbers_on_the_page_are_those_of_the_records() -> None:
    """Last values, with their units, and the days of the windows are printed as they are."""
    client = example("brolga-plains")
    words = text_of(programme("brolga-plains"))
    shown = view(client)
    for farm in shown.farms:
        for zone in farm.zones:
            assert zone.name in words
            for task in zone.tasks:
                for row in task.results:
                    assert row.value in words
    assert "1 December 2026 to 27 February 2027" in words


def test_the_words_between_page_numbers_are_those_of_the_document() -> None:
    """The foot of every page counts in the language of the document, whatever its word is."""
    html = programme_html(view(example("juniper-start")), AS_OF).replace('data-of="of"', 'data-of="von &quot;"')
    found = reader(write_pdf(html, AS_OF, {"logo.png": BOOK / "logo.png"}))
    for number, page in enumerate(found.pages, start=1):
        assert f'{number} von " {len(found.pages)}' in " ".join(page.extract_text().split())


def test_the_client_reads_days_in_the_own_form() -> None:
    """American days come month first."""
    words = text_of(programme("iron-prairie"))
    assert "October 23, 2027" in words
    assert "23 October 2027" not in words


def test_the_practice_s_colours_are_on_the_page() -> None:
    """Headings and bars have them."""

    def colours(shown: ProgrammeView) -> set[tuple[int, ...]]:
        document = pypdfium2.PdfDocument(render_programme(shown, AS_OF, BOOK))
        pixels = [page.render(scale=2).to_numpy().reshape(-1, 3) for page in document]
        return {(int(red), int(green), int(blue)) for one in pixels for blue, green, red in np.unique(one, axis=0)}

    shown = view(example("juniper-start"))
    of_practice = {(0x12, 0x34, 0x56), (0x65, 0x43, 0x21)}
    assert not colours(shown) & of_practice
    assert colours(replace(shown, colours=Colours("#123456", "#654321"))) >= of_practice


def test_only_our_fonts_are_used() -> None:
    """Every font in the document is of the shipped family."""
    for page in reader(programme("juniper-start")).pages:
        fonts = page["/Resources"].get("/Font", {})
        assert all("Open-Sans" in font.get_object()["/BaseFont"] for font in fonts.values())


def test_the_same_bytes_twice_and_in_another_process(tmp_path: Path) -> None:
    """The same view and day give the same bytes, whatever the process, clock zone and hash seed."""
    first = programme("juniper-start")
    assert render_programme(view(example("juniper-start")), AS_OF, BOOK) == first
    script = (
        "import hashlib, sys; sys.path.insert(0, '.');"
        "from tests.documents.made import *; from soilrota.documents import render_programme;"
        "print(hashlib.sha256(render_programme(view(example('juniper-start')), AS_OF, BOOK)).hexdigest())"
    )
    environment = {**os.environ, "PYTHONHASHSEED": "7", "TZ": "Pacific/Auckland", "LC_ALL": "C"}
    root = Path(__file__).resolve().parents[2]
    found = subprocess.run(
        [sys.executable, "-c", script], cwd=root, env=environment, capture_output=True, text=True, check=True
    )
    assert found.stdout.strip() == hashlib.sha256(first).hexdigest()


def test_another_day_is_another_document() -> None:
    """The document's date is printed, and is the date of its metadata."""
    client = example("juniper-start")
    content = render_programme(view(client), date(2027, 2, 20), BOOK)
    assert "20 February 2027" in text_of(content)
    assert b"2027-02-20" in reader(content).trailer["/Root"]["/Metadata"].get_object().get_data()


def test_what_a_client_writes_is_shown_and_never_run() -> None:
    """Tags, template signs, long words, right-to-left names and 300 characters are words on the page."""
    client = example("juniper-start")
    names = ["<script>alert(1)</script>", "{{7*7}} {% raw %}", "</td></table>"]
    farm = client.farms[0]
    zones = tuple(replace(farm.zones[0], id=f"z{index}", name=name) for index, name in enumerate(names))
    odd = replace(client, name="Long " * 60, farms=(replace(farm, zones=zones, name="x" * 5000),))
    content = render_programme(view(odd), DAY, BOOK)
    words = text_of(content)
    for name in names:
        assert name in words
    assert "49" not in words.replace("2049", "")
    assert len(reader(content).pages) < 12


@pytest.mark.parametrize("url", ["file:///etc/hostname", "http://127.0.0.1:9/x.png", "book:../practice.yaml", "x.png"])
@pytest.mark.parametrize(
    "form", ['<img src="{}" alt="x">', '<link rel="attachment" href="{}">', '<p style="background: url({})">x']
)
def test_nothing_from_outside_is_fetched(url: str, form: str) -> None:
    """Whatever asks for a file or an address that was not given fails the document."""
    with pytest.raises((AssetRefusedError, RenderingError)):
        write_pdf(f"<html lang=en><title>t</title><body>{form.format(url)}", DAY, {})


def test_an_error_of_the_writer_fails_the_document(tmp_path: Path) -> None:
    """A picture that cannot be drawn is not left out in silence."""
    broken = tmp_path / "logo.png"
    broken.write_bytes(b"\x89PNG\r\n\x1a\n and nothing more")
    with pytest.raises(RenderingError):
        write_pdf('<html lang=en><title>t</title><body><img src="book:logo.png" alt="x">', DAY, {"logo.png": broken})


def test_forty_zones_and_one() -> None:
    """A large farm goes on over pages with its header repeated; a single zone is a short document."""
    client = example("juniper-start")
    farm = client.farms[0]
    zones = tuple(replace(farm.zones[0], id=f"zone-{index}", name=f"Zone number {index}") for index in range(40))
    many = reader(render_programme(view(replace(client, farms=(replace(farm, zones=zones),))), DAY, BOOK))
    heads = [page.extract_text() for page in many.pages if "Where it stands" in page.extract_text()]
    assert len(heads) >= 2
    one = replace(client, farms=(replace(farm, zones=farm.zones[:1]),))
    assert len(reader(render_programme(view(one), DAY, BOOK)).pages) <= 3


def test_importing_the_package_does_not_load_the_writer() -> None:
    """Commands that render nothing stay light."""
    script = "import sys, soilrota.documents; print('weasyprint' in sys.modules)"
    found = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert found.stdout.strip() == "False"
