"""How templates are run: the shipped ones as they are, those of a practice in a sandbox above the shipped ones.

In both, what a client wrote is escaped and an unknown name is a fault. In the sandbox a template sees the view, words
to say and nothing else: no file, no attribute that is not the view's own, nothing that is drawn by lot.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache, lru_cache
from typing import Any

from jinja2 import Environment, FileSystemLoader, FunctionLoader, StrictUndefined, TemplateRuntimeError, Undefined
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup

from soilrota.documents.said_markup import SPOKEN
from soilrota.files import shipped
from soilrota.model.documents import TEMPLATES, DocumentKind

#: Before the name of a shipped template, where a template of the practice names it.
SHIPPED = "shipped/"
#: Kept from a practice's templates: these give something else every time.
_BY_LOT = {"filters": ("random",), "globals": ("lipsum",)}
_SETTINGS: dict[str, Any] = {
    "autoescape": True,
    "undefined": StrictUndefined,
    "trim_blocks": True,
    "lstrip_blocks": True,
}

#: Name and text of each template of a practice.
Sources = tuple[tuple[str, str], ...]


class ShippedHtml(str):
    """HTML that shipped templates alone have made: by the rules of XML and by those of HTML it is the same tree."""

    __slots__ = ()


@cache
def shipped_environment() -> Environment:
    """Return the environment of the shipped templates."""
    return _furnished(Environment(loader=FileSystemLoader(shipped("report_templates")), **_SETTINGS))  # noqa: S701


def load_templates() -> None:
    """Compile the template of every kind of document now, which takes a while, rather than when it is first filled."""
    for kind in DocumentKind:
        shipped_environment().get_template(kind.template)


@lru_cache(maxsize=8)
def own_environment(sources: Sources) -> Environment:
    """Return the environment of a practice's templates; these reach the shipped ones as `shipped/NAME`.

    Args:
        sources: the texts.
    """
    texts = dict(sources)
    files = FileSystemLoader(shipped("report_templates"))

    def load(name: str) -> tuple[str, str | None, Callable[[], bool] | None] | None:
        """Return a template by its name: a shipped one, or the practice's, with its place in the book."""
        if name.startswith(SHIPPED):
            return files.get_source(environment, name.removeprefix(SHIPPED))
        return (texts[name], f"{TEMPLATES}/{name}", None) if name in texts else None

    environment = _furnished(_OwnEnvironment(loader=FunctionLoader(load), finalize=_printable, **_SETTINGS))
    for name in _BY_LOT["filters"]:
        del environment.filters[name]
    for name in _BY_LOT["globals"]:
        del environment.globals[name]
    return environment


class _OwnEnvironment(ImmutableSandboxedEnvironment):
    """Runs a practice's templates above the shipped ones."""

    def join_path(self, template: str, parent: str) -> str:
        """Return the name under which a template is found: a shipped one names shipped ones alone."""
        inside = parent.startswith(SHIPPED) and not template.startswith(SHIPPED)
        return f"{SHIPPED}{template}" if inside else template


def _furnished(environment: Environment) -> Environment:
    """Return an environment with what every template knows."""
    environment.filters["picture"] = _picture
    environment.globals.update(SPOKEN)
    return environment


def _picture(markup: str) -> Markup:
    """Mark SVG of our own as markup; every word in it was escaped when it was drawn."""
    return Markup(markup)  # noqa: S704


def _printable(value: object) -> object:
    """Return what a template prints.

    Raises:
        TemplateRuntimeError: it is no text and no number, so that something of the program itself would be printed.
    """
    if isinstance(value, str | int | float | Undefined) and not isinstance(value, bool):
        return value
    raise TemplateRuntimeError(f"{type(value).__name__} is neither text nor a number, and cannot be printed")
