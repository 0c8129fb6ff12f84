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


def test_findings_about_samples_are_printed() -> None:
    """Their heading stands only where there is one."""
    shown = view(example("anvil-creek"))
    assert "How the samples were taken" not in programme_html(shown, AS_OF)
    farm = shown.farms[0]
    zone = farm.zones[0]
    told = replace(zone, tasks=(replace(zone.tasks[0], findings=("About the sample of today: it was taken.",)),))
    html = programme_html(replace(shown, farms=(replace(farm, zones=(told,)),)), AS_OF)
    assert "<h4>How the samples were taken</h4><ul><li>About the sample of today: it was taken.</li></ul>" in html
