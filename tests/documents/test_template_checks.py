"""What can be seen of a practice's templates without running them."""

from __future__ import annotations

from pathlib import Path

import pytest

from soilrota.documents.own_templates import own_templates
from soilrota.documents.template_checks import KEPT, shipped_blocks, unused
from soilrota.model.documents import DocumentKind
from tests.documents.own import EXTENDS, PROGRAMME, block, problems_of, written

WANTED = 'write {% extends "shipped/programme.html.jinja" %} as the first line, and no other'


@pytest.mark.parametrize(
    ("text", "line", "code", "mend"),
    [
        (f"{EXTENDS}\n{{% blok %}}", 3, "template-syntax", "see that every tag"),
        (f"{EXTENDS}\n\n{{{{ view", 4, "template-syntax", "see that every tag"),
        (block("cautoins", "x"), 2, "template-block", "write cautions"),
        (block("xyz", "x"), 2, "template-block", "put its content into one of these"),
        (block("todo", "x") + block("todo", "y").removeprefix(EXTENDS), 5, "template-block", "put both into one"),
        (block("cautions", "mine alone"), 2, "template-keeps", "write {{ super() }} where that is to stand"),
        (block("zone", "{{ zone.name }}"), 2, "template-keeps", "write {{ super() }} where that is to stand"),
        ("words", 1, "template-parent", "write it as the first line"),
        ('{% extends "programme.html.jinja" %}', 1, "template-parent", WANTED),
        ('{% extends "shipped/labels.html.jinja" %}', 1, "template-parent", WANTED),
        ('\n{% extends "shipped/progamme.html.jinja" %}', 2, "template-parent", WANTED),
        ("{% extends view.client %}", 1, "template-parent", WANTED),
        (f"{{% if view.client %}}{EXTENDS}{{% endif %}}", 1, "template-parent", WANTED),
        (f"{EXTENDS}{EXTENDS}", 2, "template-parent", WANTED),
        (block("todo", '{% include "fot.jinja" %}'), 3, "template-parent", "write foot.jinja"),
        (block("todo", "{% include view.client %}"), 3, "template-parent", "write the name in quotes"),
        (block("todo", '{% include "shipped/programme.html.jinja" %}'), 3, "template-parent", "put the file into"),
        (block("todo", "{{ veiw.client }}"), 3, "template-name", "write view"),
        (block("todo", "{{ zone.name }}"), 3, "template-name", "take it out, or name one of"),
        (block("todo", "{{ view.client|uper }}"), 3, "template-name", "write upper"),
        (block("todo", "{% if 3 is od %}x{% endif %}"), 3, "template-name", "write odd"),
    ],
)
def test_each_mistake_has_its_line(tmp_path: Path, text: str, line: int, code: str, mend: str) -> None:
    """File, line, what and how to mend it; one mistake, one problem."""
    written(tmp_path, programme__html__jinja=text, foot__jinja="x")
    (problem,) = problems_of(tmp_path)
    assert (problem.code, str(problem.place)) == (code, f"templates/{PROGRAMME}:{line}")
    assert problem.mend.startswith(mend)


@pytest.mark.parametrize(
    "text",
    [
        EXTENDS,
        block("todo", "mine alone"),
        block("cautions", "<p>{{ say('Before anybody goes out') }}</p>{{ super() }}"),
        block(
            "zone", "{{ super() }}{{ farm.name }}{{ zone.name }}{% for a in zone.tasks %}{{ loop.index }}{% endfor %}"
        ),
        block("todo", "{{ mine }}{{ m(1) }}{{ parts.sentences([]) }}{{ day_words }}")
        + "{% set mine = 'x' %}{% macro m(a) %}{{ a }}{% endmacro %}",
        block("styles", "<style>h2 { letter-spacing: 1pt; }</style>"),
        block("todo", '{% import "shipped/macros.jinja" as p %}{% include ["foot.jinja"] %}{{ p.warnings([]) }}'),
    ],
)
def test_what_is_right(tmp_path: Path, text: str) -> None:
    """Blocks replaced or added to, names of loops, own settings and macros, parts."""
    written(tmp_path, programme__html__jinja=text, foot__jinja="x")
    assert problems_of(tmp_path) == ()


def test_a_part_is_held_to_the_same(tmp_path: Path) -> None:
    """What is wrong in a part is wrong with each document that uses it."""
    part = '{% extends "shipped/base.html.jinja" %}\n{{ 1|uper }}\n{% include "gone.jinja" %}'
    written(tmp_path, programme__html__jinja=block("todo", '{% include "part.jinja" %}'), part__jinja=part)
    assert [str(problem.place) for problem in problems_of(tmp_path)] == [f"templates/part.jinja:{n}" for n in (1, 2, 3)]


def test_what_no_document_uses_is_said(tmp_path: Path) -> None:
    """A misspelt name is the likeliest reason."""
    written(tmp_path, programe__html__jinja=EXTENDS, used__jinja="x", labels__html__jinja='{% include "used.jinja" %}')
    (problem,) = unused(own_templates(tmp_path))
    assert (problem.code, problem.place.file) == ("template-unused", "templates/programe.html.jinja")
    assert problem.mend == f"rename it to {PROGRAMME}"


@pytest.mark.parametrize("kind", DocumentKind)
def test_every_document_has_blocks(kind: DocumentKind) -> None:
    """The frame that all share, and at least one of its own; where there are cautions they are kept."""
    blocks = set(shipped_blocks(kind).blocks)
    assert {"subject", "styles", "body"} <= blocks
    assert len(blocks) > 3
    assert "body" in KEPT
    assert ("cautions" in blocks) is (kind not in (DocumentKind.LABELS, DocumentKind.LABORATORY_CHECKS))


def test_every_kept_block_exists() -> None:
    """None is kept under a name that no template has any more."""
    assert set().union(*(shipped_blocks(kind).blocks for kind in DocumentKind)) >= KEPT
