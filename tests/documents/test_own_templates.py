"""A practice's own templates: read, run, and what goes wrong with its place."""

from __future__ import annotations

from pathlib import Path

import pytest

from soilrota.documents import render_programme, view_digest
from soilrota.documents.faults import TemplateFaultError
from soilrota.documents.own_templates import OwnTemplates, own_templates
from soilrota.documents.templates import programme_html
from soilrota.model.documents import DocumentKind
from soilrota.problems import Problem
from tests.documents.made import AS_OF, example, view
from tests.documents.own import EXTENDS, PROGRAMME, block, written
from tests.documents.test_pdf import text_of

SHOWN = view(example("juniper-start"))


def html(book: Path) -> str:
    """Return the programme of a client without a logo."""
    return programme_html(SHOWN, AS_OF, book)


def fault(book: Path) -> Problem:
    """Return what kept the programme from being made."""
    with pytest.raises(TemplateFaultError) as caught:
        html(book)
    return caught.value.problem


def test_a_block_is_overridden_and_the_rest_stays(tmp_path: Path) -> None:
    """What a block adds stands behind what is shipped, escaped; without the folder nothing differs."""
    plain = programme_html(SHOWN, AS_OF)
    assert html(tmp_path) == plain
    written(
        tmp_path, programme__html__jinja=block("cautions", "{{ super() }}<p>Gates! {{ view.client }} & {{ '<' }}</p>")
    )
    own = html(tmp_path)
    added = f"<p>Gates! {SHOWN.client} & &lt;</p>"
    assert added in own
    assert own.replace(added, "").split() == plain.split()
    assert "Gates!" in text_of(render_programme(view(example("juniper-start")), AS_OF, _with_logo(tmp_path)))


def _with_logo(book: Path) -> Path:
    """Return a book that has the logo of the example book."""
    from tests.documents.made import BOOK

    (book / "logo.png").write_bytes((BOOK / "logo.png").read_bytes())
    return book


def test_parts_are_shared_by_documents(tmp_path: Path) -> None:
    """A file that is no document's is included or imported; loops of the shipped template are seen."""
    written(
        tmp_path,
        head__jinja="{% macro head(who) %}<b>{{ who }}</b>{% endmacro %}",
        foot__jinja="<i>{{ view.practice }}</i>",
        programme__html__jinja=f'{EXTENDS}{{% from "head.jinja" import head %}}'
        "{% block letterhead %}{{ head(view.practice) }}{% include 'foot.jinja' %}{% endblock %}"
        "{% block zone %}{{ super() }}[{{ farm.name }}/{{ zone.name }}]{% endblock %}",
    )
    own = html(tmp_path)
    assert f"<b>{SHOWN.practice}</b><i>{SHOWN.practice}</i>" in own
    for farm in SHOWN.farms:
        for zone in farm.zones:
            assert f"[{farm.name}/{zone.name}]" in own


@pytest.mark.parametrize(
    ("content", "code", "word"),
    [
        ("{{ view.clinet }}", "template-name", "write client"),
        ("{{ view.rows[0].zne }}{{ view.rows[99].zone }}", "template-name", "write zone"),
        ("{{ view.rows[99].zone }}", "template-fails", "no element 99"),
        ("{{ view.client.__class__ }}", "template-not-allowed", "__class__"),
        ("{{ view.rows }}", "template-fault", "tuple is neither text nor a number"),
        ("{{ 1 / 0 }}", "template-fails", "division by zero"),
        ("{% macro again(x) %}{{ again(x) }}{% endmacro %}{{ again(1) }}", "template-fails", "recursion"),
        ("{{ parts.sentences() }}", "template-fault", "items"),
    ],
)
def test_what_shows_only_when_it_runs(tmp_path: Path, content: str, code: str, word: str) -> None:
    """The line in the practice's own file, whichever template the program was in."""
    written(tmp_path, programme__html__jinja=block("todo", content))
    problem = fault(tmp_path)
    assert (problem.code, str(problem.place)) == (code, f"templates/{PROGRAMME}:3")
    assert word in f"{problem.found} {problem.mend}"


def test_a_fault_in_a_part_is_said_where_it_is(tmp_path: Path) -> None:
    """Not where it is included."""
    written(
        tmp_path, foot__jinja="\n\n{{ nothing }}", programme__html__jinja=block("todo", '{% include "foot.jinja" %}')
    )
    assert str(fault(tmp_path).place) == "templates/foot.jinja:3"


@pytest.mark.parametrize("name", [PROGRAMME, "foot.jinja"])
def test_a_link_out_of_the_book_is_refused(tmp_path: Path, name: str) -> None:
    """As a template and as a part of one; in the book a link is followed."""
    book, outside = tmp_path / "book", tmp_path / name
    book.mkdir()
    outside.write_text(EXTENDS, encoding="utf-8")
    written(book, programme__html__jinja=EXTENDS)
    (book / "templates" / name).unlink(missing_ok=True)
    (book / "templates" / name).symlink_to(outside)
    problem = fault(book)
    assert (problem.code, problem.place.file) == ("link-leaves-book", f"templates/{name}")
    outside.rename(book / "inside.txt")
    (book / "templates" / name).unlink()
    (book / "templates" / name).symlink_to(book / "inside.txt")
    assert own_templates(book).problems == ()


def test_a_folder_that_leads_out_of_the_book_is_refused(tmp_path: Path) -> None:
    """For every document: nobody knows what is in it."""
    book = tmp_path / "book"
    book.mkdir()
    (tmp_path / "elsewhere").mkdir()
    (book / "templates").symlink_to(tmp_path / "elsewhere")
    for kind in DocumentKind:
        assert own_templates(book).of(kind) is not None
    assert fault(book).code == "link-leaves-book"


@pytest.mark.parametrize(
    ("content", "code"),
    [(b"\xff\xfe", "not-utf-8"), (b"{# \x00 #}", "unsafe-character"), (b"a" * 300_000, "too-large")],
)
def test_what_cannot_be_read(tmp_path: Path, content: bytes, code: str) -> None:
    """Bytes that are no text, signs that nobody sees, a file that is far too large."""
    written(tmp_path)
    (tmp_path / "templates" / PROGRAMME).write_bytes(content)
    assert fault(tmp_path).code == code


def test_other_documents_do_not_feel_it(tmp_path: Path) -> None:
    """A broken template of the farm report is no matter of the programme; a part that nobody uses is."""
    plain = html(tmp_path)
    written(tmp_path, farm_report__html__jinja="{% broken")
    assert html(tmp_path) == plain
    assert own_templates(tmp_path).of(DocumentKind.PROGRAMME) is None
    assert own_templates(tmp_path).of(DocumentKind.FARM_REPORT) is not None
    assert OwnTemplates().of(DocumentKind.PROGRAMME) is None


@pytest.mark.parametrize("address", ["http://127.0.0.1:9/x.png", "file:///etc/hostname", "other.png", "book:other.png"])
def test_what_documents_may_not_show_is_refused_at_its_line(tmp_path: Path, address: str) -> None:
    """The one door for files stays as it is."""
    written(tmp_path, programme__html__jinja=block("todo", f'\n<img src="{address}" alt="x">'))
    with pytest.raises(TemplateFaultError) as caught:
        render_programme(SHOWN, AS_OF, _with_logo(tmp_path))
    problem = caught.value.problem
    assert (problem.code, str(problem.place)) == ("template-not-allowed", f"templates/{PROGRAMME}:4")


def test_the_digest_knows_what_a_document_uses(tmp_path: Path) -> None:
    """Its own template and parts, and no other document's; without any it is what it was."""
    _with_logo(tmp_path)
    digests = [view_digest(SHOWN, tmp_path)]
    written(tmp_path, farm_report__html__jinja="x")
    assert view_digest(SHOWN, tmp_path) == digests[0]
    for name, text in (
        ("programme__html__jinja", EXTENDS),
        ("programme__html__jinja", f"{EXTENDS} "),
        ("a__jinja", "x"),
    ):
        written(tmp_path, **{name: text})
        digests.append(view_digest(SHOWN, tmp_path))
    assert len(set(digests)) == 4
    assert view_digest(SHOWN, tmp_path) == digests[-1]
