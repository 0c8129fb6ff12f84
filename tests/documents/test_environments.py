"""How templates are run."""

from __future__ import annotations

from typing import Any

import jinja2
import pytest
from jinja2.exceptions import SecurityError

from soilrota.documents.environments import load_templates, own_environment, shipped_environment
from soilrota.model.documents import DocumentKind
from tests.documents.made import example, view


def run(text: str, **values: Any) -> str:
    """Return what a template of a practice says."""
    environment = own_environment((("a.jinja", text),))
    return environment.get_template("a.jinja").render(values)


@pytest.mark.parametrize("text", ["{{ nothing }}", "{{ view.nothing }}", "{% if nothing %}{% endif %}"])
def test_an_unknown_name_is_a_fault(text: str) -> None:
    """In a shipped template and in one of the practice."""
    shown = view(example("juniper-start"))
    with pytest.raises(jinja2.UndefinedError):
        run(text, view=shown)
    with pytest.raises(jinja2.UndefinedError):
        shipped_environment().from_string(text).render(view=shown)


def test_what_was_written_by_others_is_escaped() -> None:
    """Values are text, in and out of what is said."""
    assert run("{{ a }} {{ say('{a}', a=a) }}", a="<b>{{ 1 }}") == "&lt;b&gt;{{ 1 }} &lt;b&gt;{{ 1 }}"


@pytest.mark.parametrize(
    "text",
    [
        "{{ view.__class__ }}",
        "{{ say.__globals__ }}",
        "{{ view['__class__'].__mro__ }}",
        "{{ ''.__class__.__base__.__subclasses__() }}",
        "{{ '{0.__class__}'.format(view) }}",
        "{% for row in view.rows %}{{ row.__init__.__globals__ }}{% endfor %}",
        "{% set x = [] %}{{ x.append(1) }}",
        "{% for a in range(999999) %}{% endfor %}",
    ],
)
def test_nothing_is_reached_behind_the_view(text: str) -> None:
    """Neither the program nor the machine, and nothing is changed."""
    with pytest.raises((SecurityError, jinja2.TemplateError, OverflowError)):
        run(text, view=view(example("anvil-creek")))


@pytest.mark.parametrize("text", ["{{ lipsum() }}", "{{ [1, 2, 3]|random }}"])
def test_nothing_is_drawn_by_lot(text: str) -> None:
    """The same view gives the same words."""
    with pytest.raises(jinja2.TemplateError):
        run(text)


@pytest.mark.parametrize("text", ["{{ view }}", "{{ view.rows }}", "{{ say }}", "{{ nobody }}", "{{ view.rows == 1 }}"])
def test_only_text_and_numbers_are_printed(text: str) -> None:
    """Anything else would print something of the program."""
    with pytest.raises(jinja2.TemplateRuntimeError):
        run(text, view=view(example("juniper-start")), nobody=None)
    assert run("{{ 'a' }}{{ 1 }}{{ 2.5 }}") == "a12.5"


@pytest.mark.parametrize(
    "text", ['{% include "shipped/../pyproject.toml" %}', '{% include "/etc/hostname" %}', '{% include "../a.jinja" %}']
)
def test_no_other_file_is_read(text: str) -> None:
    """Neither beside the shipped templates nor beside the practice's."""
    with pytest.raises(jinja2.TemplateNotFound):
        run(text)


def test_shipped_templates_never_see_those_of_a_practice() -> None:
    """A practice's `base.html.jinja` is not what shipped templates extend."""
    environment = own_environment(
        (("base.html.jinja", "mine"), ("programme.html.jinja", '{% extends "shipped/programme.html.jinja" %}'))
    )
    shown = view(example("juniper-start"))
    values = {"view": shown, "day_iso": "2027-02-15", "day_words": "15 February 2027"}
    html = environment.get_template("programme.html.jinja").render(values)
    assert html == shipped_environment().get_template("programme.html.jinja").render(values)


def test_every_document_has_its_template_loaded() -> None:
    """A worker that is forked afterwards compiles nothing."""
    shipped_environment.cache_clear()
    load_templates()
    cache = shipped_environment().cache
    assert cache is not None
    loaded = {name for _, name in cache}
    assert loaded == {kind.template for kind in DocumentKind}
