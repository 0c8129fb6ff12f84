"""Every problem of a practice's templates, those that show only when they are run included."""

from __future__ import annotations

from pathlib import Path

import pytest

from soilrota.documents.environments import shipped_environment
from soilrota.documents.own_templates import own_templates
from soilrota.documents.template_trial import made_up, template_problems
from soilrota.documents.templates import VIEWS, values_of
from soilrota.documents.views import ProgrammeView, TaskView
from soilrota.model.documents import DocumentKind
from tests.documents.made import AS_OF
from tests.documents.own import EXTENDS, PROGRAMME, block, written


@pytest.mark.parametrize("full", [True, False])
@pytest.mark.parametrize("kind", DocumentKind)
def test_shipped_templates_run_on_made_up_views(kind: DocumentKind, *, full: bool) -> None:
    """A view made from its types is one that the shipped template can show."""
    from dataclasses import replace

    view = replace(made_up(VIEWS[kind], full=full), language="en-GB")
    assert "</html>" in shipped_environment().get_template(kind.template).render(values_of(view, AS_OF))


def test_made_up_views_are_full_or_empty() -> None:
    """Everything that may be missing is there, or is not."""
    full, empty = made_up(ProgrammeView, full=True), made_up(ProgrammeView, full=False)
    assert isinstance(full.farms[0].zones[0].tasks[0], TaskView)
    assert full.farms[0].visits is not None
    assert (empty.farms, empty.title) == ((), "")


@pytest.mark.parametrize("kind", DocumentKind)
def test_a_template_that_overrides_nothing_is_right(tmp_path: Path, kind: DocumentKind) -> None:
    """For every document, as is one that adds to every block."""
    from soilrota.documents.template_checks import shipped_blocks

    name = kind.template.replace(".", "__")
    text = f'{{% extends "shipped/{kind.template}" %}}'
    written(tmp_path, **{name: text})
    assert template_problems(tmp_path) == ()
    blocks = "".join(f"{{% block {one} %}}{{{{ super() }}}}x{{% endblock %}}" for one in shipped_blocks(kind).blocks)
    written(tmp_path, **{name: text + blocks})
    assert template_problems(tmp_path) == ()


@pytest.mark.parametrize(
    ("content", "severity", "code"),
    [
        ("{% for row in view.rows %}{{ row.zne }}{% endfor %}", "error", "template-name"),
        ("{% for farm in view.farms %}{{ farm.visits.rows }}{% endfor %}", "error", "template-fault"),
        ("{{ view.farms[0].name }}", "warning", "template-fails"),
        ("{{ view.client.split('-')[1] }}", "warning", "template-fails"),
        ("{{ veiw.client }}", "error", "template-name"),
    ],
)
def test_what_is_sure_is_an_error(tmp_path: Path, content: str, severity: str, code: str) -> None:
    """A name that no view has; what a client may lack is a warning."""
    written(tmp_path, programme__html__jinja=block("todo", content))
    (problem,) = template_problems(tmp_path)
    assert (problem.severity, problem.code, str(problem.place)) == (severity, code, f"templates/{PROGRAMME}:3")


def test_files_that_are_no_templates(tmp_path: Path) -> None:
    """Said, so that nobody waits for their effect; hidden ones are left alone."""
    written(tmp_path, programme__html__jinja=EXTENDS, programme__html="x", logo__png="x")
    (tmp_path / "templates" / ".swap").write_text("x", encoding="utf-8")
    problems = template_problems(tmp_path)
    assert [(one.code, one.place.file) for one in problems] == [
        ("stray-file", "templates/logo.png"),
        ("stray-file", "templates/programme.html"),
    ]
    assert problems[1].mend == f"rename it to {PROGRAMME}"


def test_a_book_without_templates(tmp_path: Path) -> None:
    """Nothing is wrong with nothing."""
    assert template_problems(tmp_path) == ()
    assert own_templates(tmp_path).sources == ()
