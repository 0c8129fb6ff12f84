"""Templates."""

from __future__ import annotations

from dataclasses import replace

import jinja2
import pytest

from soilrota.documents.templates import programme_html
from tests.documents.made import AS_OF, example, view


def test_names_are_escaped_and_never_run() -> None:
    """Tags and template signs of a client are text."""
    shown = replace(view(example("juniper-start")), client="<b>{{ 7*7 }}</b>")
    html = programme_html(shown, AS_OF)
    assert "&lt;b&gt;{{ 7*7 }}&lt;/b&gt;" in html


def test_an_unknown_name_is_a_fault() -> None:
    """A template that asks for what the view does not have fails instead of printing nothing."""
    from soilrota.documents.templates import _environment

    with pytest.raises(jinja2.UndefinedError):
        _environment().from_string("{{ view.nothing }}").render(view=view(example("juniper-start")))
