"""Books with templates of their own, for the tests of documents."""

from __future__ import annotations

from pathlib import Path

from soilrota.documents.own_templates import own_templates
from soilrota.documents.template_checks import checked
from soilrota.model.documents import DocumentKind
from soilrota.problems import Problem

PROGRAMME = "programme.html.jinja"
EXTENDS = '{% extends "shipped/programme.html.jinja" %}\n'


def block(name: str, content: str) -> str:
    """Return the programme's template with one block; its content begins on the third line."""
    return f"{EXTENDS}{{% block {name} %}}\n{content}\n{{% endblock %}}\n"


def written(book: Path, **texts: str) -> Path:
    """Write templates into a book and return it; two underscores in a name stand for a point."""
    (book / "templates").mkdir(exist_ok=True)
    for name, text in texts.items():
        (book / "templates" / name.replace("__", ".")).write_text(text, encoding="utf-8")
    return book


def problems_of(book: Path, kind: DocumentKind = DocumentKind.PROGRAMME) -> tuple[Problem, ...]:
    """Return what can be seen to be wrong with what a document uses."""
    own = own_templates(book).of(kind)
    assert own is not None
    return checked(own, kind)
