"""A practice's own templates from night to night: what they change is made anew, and a broken one costs that alone."""

from __future__ import annotations

import io
import shutil
from pathlib import Path

import pypdf
import pytest

from tests.acceptance.signed_book import CLIENT, DAY, make_signable
from tests.acceptance.small_book import CLIENTS, edit, last_run, night, soilrota, tree

PROGRAMMES = {f"clients/{client}/programme.pdf" for client in CLIENTS}
DRAFT, SIGNED = f"drafts/{CLIENT}/farm_report-home.pdf", f"clients/{CLIENT}/farm_report-home.pdf"
#: Of each document, the block that the tests add to.
BLOCKS = {
    "programme": "cautions",
    "farm_report": "cautions",
    "field_pack": "cautions",
    "field_calendar": "cautions",
    "labels": "label",
}


def own(book: Path, document: str, content: str = "{{ super() }}<p>Shut the gates.</p>") -> Path:
    """Write a template of the practice that adds to a document; its content stands on the third line."""
    (book / "templates").mkdir(exist_ok=True)
    file = book / "templates" / f"{document}.html.jinja"
    text = (
        f'{{% extends "shipped/{document}.html.jinja" %}}\n{{% block {BLOCKS[document]} %}}\n{content}{{% endblock %}}'
    )
    file.write_text(text, encoding="utf-8")
    return file


def changed(before: dict[str, str], out: Path) -> set[str]:
    """Return the files of the output folder that are not what they were."""
    after = tree(out)
    return {name for name in before.keys() | after.keys() if before.get(name) != after.get(name)}


def words(file: Path) -> str:
    """Return the words of a PDF."""
    return " ".join(" ".join(page.extract_text() for page in pypdf.PdfReader(file).pages).split())


def packs(before: dict[str, str]) -> set[str]:
    """Return the files of the field packs."""
    return {name for name in before if Path(name).name.startswith(("field_pack-", "labels-", "points."))}


def test_exactly_the_documents_of_a_template_are_made_again(book: Path, out: Path) -> None:
    """Kind by kind; taken away again, each is made as it was, byte for byte."""
    make_signable(book)
    assert night(book, out, as_of=DAY).returncode == 0
    first = tree(out)
    assert packs(first)
    wanted = {
        "programme": PROGRAMMES,
        "farm_report": {DRAFT},
        "field_pack": packs(first),
        "labels": packs(first),
        "field_calendar": {"field_calendar.pdf"},
    }
    for document, files in wanted.items():
        before = tree(out)
        own(book, document)
        assert night(book, out, as_of=DAY).returncode == 0
        pdfs = {name for name in files if Path(name).name.startswith(document)}
        assert changed(before, out) == pdfs
        assert all("Shut the gates." in words(out / name) for name in pdfs)
    before = tree(out)
    assert night(book, out, as_of=DAY).returncode == 0
    assert changed(before, out) == set()
    shutil.rmtree(book / "templates")
    assert night(book, out, as_of=DAY).returncode == 0
    assert tree(out) == first


def test_a_part_remakes_what_may_use_it(book: Path, out: Path) -> None:
    """A change in a file that programmes include remakes programmes, and no document without a template."""
    own(book, "programme", '{{ super() }}{% include "gates.jinja" %}')
    (book / "templates" / "gates.jinja").write_text("<p>Shut the gates.</p>", encoding="utf-8")
    night(book, out)
    before = tree(out)
    (book / "templates" / "gates.jinja").write_text("<p>Shut every gate.</p>", encoding="utf-8")
    assert night(book, out, as_of="2027-02-16").returncode == 0
    assert changed(before, out) - {"season.html"} == PROGRAMMES
    assert all("Shut every gate." in words(out / name) for name in PROGRAMMES)


@pytest.mark.parametrize("content", ["{{ super() }}{{ view.clinet }}", "{% blok %}"])
def test_a_broken_template_costs_the_documents_of_its_kind_alone(book: Path, out: Path, content: str) -> None:
    """Programmes stand as they were; all else is made; the night says where, every night, and never with a trace."""
    night(book, out)
    before = tree(out)
    shutil.copytree(book / "clients" / CLIENTS[0], book / "clients" / "new-farm")
    file = own(book, "programme", content)
    for day in ("2027-02-16", "2027-02-17"):
        found = night(book, out, as_of=day)
        assert found.returncode == 1
        said = "the programme of alder-farm, birch-farm, cedar-farm and 1 more could not be made: templates/programme"
        assert f"{said}.html.jinja:3: " in found.stderr
        assert "Traceback" not in found.stderr
        assert "fault of the program" not in found.stderr
        assert last_run(out)["counts"]["failed"] == 0
        assert all(tree(out)[name] == before[name] for name in PROGRAMMES)
        assert not (out / "clients" / "new-farm" / "programme.pdf").exists()
        assert "new-farm" in (out / "season.csv").read_text(encoding="utf-8")
        assert list((out / "clients" / "new-farm").glob("field_pack-*.pdf"))
    file.unlink()
    assert night(book, out, as_of="2027-02-18").returncode == 0
    assert all(tree(out)[name] == before[name] for name in PROGRAMMES)
    assert (out / "clients" / "new-farm" / "programme.pdf").exists()


def test_broken_templates_of_other_documents(book: Path, out: Path) -> None:
    """Packs, reports and the field calendar stand as they were; programmes and tables are made."""
    make_signable(book)
    night(book, out, as_of=DAY)
    before = tree(out)
    edit(book / "clients" / CLIENT / "client.yaml", "name: Home", "name: Home block")
    for document in BLOCKS:
        if document != "programme":
            own(book, document, "{{ super() }}{{ nothing }}")
    found = night(book, out, as_of="2027-03-16")
    assert found.returncode == 1
    for kind in ("field_pack", "farm_report", "field_calendar"):
        assert f"templates/{kind}.html.jinja:3: error [template-name]" in found.stderr
    assert "Traceback" not in found.stderr
    kept = {DRAFT, "field_calendar.pdf"} | {name for name in packs(before) if "field_pack-" in name}
    assert all(tree(out)[name] == before[name] for name in kept)
    assert f"clients/{CLIENT}/programme.pdf" in changed(before, out)


def test_a_signed_report_stays_signed(book: Path, out: Path) -> None:
    """A signature covers data: the report is made again, signed as it was; with a broken template it stands."""
    make_signable(book)
    assert soilrota("sign", book, CLIENT, "--as", "ann-lee", "--as-of", DAY, "--yes").returncode == 0
    night(book, out, as_of=DAY)
    assert "Signed by Ann Lee" in words(out / SIGNED)
    own(book, "farm_report")
    assert night(book, out, as_of="2027-03-16").returncode == 0
    text = words(out / SIGNED)
    assert "Signed by Ann Lee" in text
    assert "Shut the gates." in text
    assert not (out / DRAFT).exists()
    before = tree(out)
    own(book, "farm_report", "{{ super() }}{{ nothing }}")
    assert night(book, out, as_of="2027-03-17").returncode == 1
    assert tree(out)[SIGNED] == before[SIGNED]
    found = soilrota("report", book, CLIENT, "--out", out, "--as-of", "2027-03-17")
    assert found.returncode == 2
    assert "templates/farm_report.html.jinja:3: error [template-name]" in found.stdout + found.stderr
    assert tree(out)[SIGNED] == before[SIGNED]


def test_the_check_finds_what_can_be_found(book: Path) -> None:
    """Before any night, with file and line; a sound template is no problem."""
    own(book, "programme")
    assert soilrota("check", book).returncode == 0
    own(book, "programme", "{{ super() }}{{ view.clinet }}")
    own(book, "labels", "{{ super() }}{% if %}")
    found = soilrota("check", book)
    assert found.returncode == 1
    assert [line.partition(" [")[0].removeprefix(f"{book}/") for line in found.stdout.splitlines()] == [
        "templates/labels.html.jinja:3: error",
        "templates/programme.html.jinja:3: error",
    ]
    assert "Traceback" not in found.stderr


def test_the_same_bytes_whatever_the_workers(book: Path, tmp_path: Path) -> None:
    """With a template of the practice, too."""
    own(book, "programme")
    outs = []
    for number, jobs in enumerate(("1", "3")):
        copy = shutil.copytree(book, tmp_path / f"book-{number}")
        night(copy, tmp_path / f"out-{number}", "--jobs", jobs)
        outs.append(tree(tmp_path / f"out-{number}"))
    assert outs[0] == outs[1]
    pdf = (tmp_path / "out-0" / "clients" / "alder-farm" / "programme.pdf").read_bytes()
    assert "Shut the gates." in pypdf.PdfReader(io.BytesIO(pdf)).pages[0].extract_text()
