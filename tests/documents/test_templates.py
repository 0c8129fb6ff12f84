"""Templates."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from soilrota.documents.templates import programme_html
from soilrota.files import shipped
from soilrota.language.catalogues import catalogue_of
from tests.documents.made import AS_OF, example, view

TEMPLATES = shipped("report_templates")
#: Signs of units stand as they are in every language.
SIGNS = {"cm"}


def test_names_are_escaped_and_never_run() -> None:
    """Tags and template signs of a client are text."""
    shown = replace(view(example("juniper-start")), client="<b>{{ 7*7 }}</b>")
    html = programme_html(shown, AS_OF)
    assert "&lt;b&gt;{{ 7*7 }}&lt;/b&gt;" in html


def test_findings_about_samples_are_printed() -> None:
    """Their heading stands only where there is one."""
    shown = view(example("anvil-creek"))
    assert "How the samples were taken" not in programme_html(shown, AS_OF)
    farm = shown.farms[0]
    zone = farm.zones[0]
    told = replace(zone, tasks=(replace(zone.tasks[0], findings=("About the sample of today: it was taken.",)),))
    html = programme_html(replace(shown, farms=(replace(farm, zones=(told,)),)), AS_OF)
    assert "<h4>How the samples were taken</h4><ul><li>About the sample of today: it was taken.</li></ul>" in html


def test_it_speaks_the_language_of_its_view() -> None:
    """Headings and the words between page numbers come from the catalogue, for this document alone."""
    shown = replace(view(example("juniper-start")), language="es")
    words = catalogue_of("es")
    said = [words.gettext("Before anybody goes out"), words.pgettext("between page number and number of pages", "of")]
    html = programme_html(shown, AS_OF)
    assert f"<h2>{said[0]}</h2>" in html
    assert f'<body data-of="{said[1]}">' in html
    assert "15 de febrero de 2027" in html
    assert "<h2>Before anybody goes out</h2>" in programme_html(view(example("juniper-start")), AS_OF)


@pytest.mark.parametrize("file", sorted(TEMPLATES.glob("*.jinja")), ids=lambda file: file.name)
def test_no_template_holds_words_of_its_own(file: Path) -> None:
    """Between tags, and in the attributes that are read out, everything is said."""
    text = re.sub(r"\{#.*?#\}|\{%.*?%\}|\{\{.*?\}\}", "\0", file.read_text(encoding="utf-8"), flags=re.DOTALL)
    text = re.sub(r"<(style|script).*?</\1>", "", text, flags=re.DOTALL)
    read_out = re.findall(r'(?:alt|title|aria-label|placeholder)="([^"]*)"', text)
    words = [word for piece in (re.sub(r"<[^>]*>", " ", text), *read_out) for word in re.findall(r"[^\W\d_]+", piece)]
    assert [word for word in words if word not in SIGNS] == []


@pytest.mark.parametrize("file", sorted(TEMPLATES.glob("*.css")), ids=lambda file: file.name)
def test_no_style_holds_words(file: Path) -> None:
    """What styles put on the page are signs and strings of the document, never words."""
    content = re.findall(r"content:([^;}]*)", file.read_text(encoding="utf-8"))
    assert [
        text for one in content for text in re.findall(r'"([^"]*)"', one) if re.search(r"(?<!\\)[A-Za-z]", text)
    ] == []
