"""What a practice's templates cost is said; and they are tried where they can do no harm."""

from __future__ import annotations

from pathlib import Path

import pytest

from soilrota.batch import template_faults
from soilrota.batch.checking import check_book
from soilrota.batch.template_faults import TemplatesOrder, of_template, programme_faults, tried_templates, try_templates
from soilrota.batch.values import Entry, Outcome
from soilrota.problems import Place, Severity, warning
from tests.documents.own import EXTENDS, block, written

PROBLEM = warning("template-name", Place("templates/programme.html.jinja", 3), "no such name", "", "mend it")
OTHER = warning("no-address", Place("clients/a/client.yaml", 3), "no address", "", "mend it")


def test_one_line_a_problem_however_many_clients() -> None:
    """The first few are named, the rest counted; other problems are none of templates."""
    entries = [Entry(name, Outcome.MADE, problems=(PROBLEM, OTHER)) for name in ("d", "b", "a", "c", "e")]
    assert list(programme_faults(entries)) == [f"the programme of a, b, c and 2 more could not be made: {PROBLEM}"]
    assert list(programme_faults(entries[:1])) == [f"the programme of d could not be made: {PROBLEM}"]
    assert list(programme_faults([Entry("a", Outcome.MADE, problems=(OTHER,))])) == []
    assert (of_template(PROBLEM), of_template(OTHER)) == (True, False)


def test_a_worker_finds_what_there_is(book: Path) -> None:
    """The same as in this process; nothing is started where there are no templates."""
    assert tried_templates(book) == ()
    written(book, programme__html__jinja=block("cautoins", "x"), labels__html="x")
    found = tried_templates(book)
    assert found == try_templates(TemplatesOrder("templates", book)).problems
    assert [problem.code for problem in found] == ["stray-file", "template-block"]
    report = check_book(book, None)
    assert (report.problems, report.count(Severity.ERROR)) == (found, 1)


@pytest.mark.parametrize(
    ("content", "why"),
    [
        ("{% for a in range(9999) %}{% for b in range(9999) %}{% endfor %}{% endfor %}", "took longer than"),
        ("{{ ('a' * 1000000000) * 8 }}", "more memory"),
        ("{{ 'a'|center(9000000000) }}", "more memory"),
    ],
)
def test_a_template_without_end_is_stopped(book: Path, monkeypatch: pytest.MonkeyPatch, content: str, why: str) -> None:
    """In time and in memory; the check goes on."""
    monkeypatch.setattr(template_faults, "_DEADLINE_S", 4.0)
    monkeypatch.setattr(template_faults, "_MEMORY_MB", 600)
    written(book, programme__html__jinja=f"{EXTENDS}{{% block todo %}}{content}{{% endblock %}}")
    (problem,) = check_book(book, None).problems
    assert (problem.severity, problem.place.file) == (Severity.ERROR, "templates")
    assert why in problem.found
