"""The templates of messages: structure without logic; in HTML everything is escaped, an unknown name is a fault.

Documents have an environment of their own: the packages of one tier do not import each other.
"""

from __future__ import annotations

import textwrap
from functools import cache

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from soilrota.delivery.message_view import MessageView
from soilrota.files import shipped
from soilrota.language import say, say_as, say_count, speaking
from soilrota.language.figures import counted

#: Longest line of a plain message [character], so that it is read without scrolling and quoted without breaking.
_WIDTH = 72


def _wrapped(text: str, indent: str) -> str:
    """Return a text on lines that are not too long, those after the first indented."""
    lead = text[: len(text) - len(text.lstrip())]
    return textwrap.fill(
        text.strip(),
        _WIDTH,
        initial_indent=lead,
        subsequent_indent=indent,
        break_long_words=False,
        break_on_hyphens=False,
    )


def _is_markup(name: str | None) -> bool:
    """Return whether what a template holds is to be escaped: everything but plain text."""
    return name is None or not name.endswith(".txt.jinja")


@cache
def _environment() -> Environment:
    """Return the environment of the shipped templates."""
    environment = Environment(
        loader=FileSystemLoader(shipped("report_templates")),
        autoescape=_is_markup,  # noqa: S701 - escapes HTML, and plain text is no markup
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters["wrapped"] = _wrapped
    environment.globals.update(say=say, say_as=say_as, say_count=say_count, counted=counted)
    return environment


def message_text(view: MessageView) -> str:
    """Return a message as plain text."""
    with speaking(view.language):
        return _environment().get_template("message.txt.jinja").render(view=view)


def message_html(view: MessageView) -> str:
    """Return a message as HTML."""
    with speaking(view.language):
        return _environment().get_template("message.html.jinja").render(view=view)
