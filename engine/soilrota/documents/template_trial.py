"""Every problem of a practice's templates: what can be seen, and what shows when each is run on made-up views.

Two views a document are made from the types of its parts: one in which everything is there, and one in which whatever
may be missing is. A name that no such part has is an error; anything else that fails may hang on what a client has, so
it is a warning.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from datetime import date
from pathlib import Path
from types import NoneType, UnionType
from typing import Any, get_args, get_origin, get_type_hints

from soilrota.documents.environments import own_environment
from soilrota.documents.faults import TemplateFaultError
from soilrota.documents.own_templates import MAY_FAIL, OwnTemplates, own_templates, rendered
from soilrota.documents.template_checks import checked, unused
from soilrota.documents.templates import VIEWS, values_of
from soilrota.files import nearest_name
from soilrota.language import speaking
from soilrota.model.documents import TEMPLATES, DocumentKind
from soilrota.problems import Place, Problem, Severity, in_order, warning

_DAY = date(2027, 2, 15)
_LANGUAGE = "en-GB"


def template_problems(book: Path) -> tuple[Problem, ...]:
    """Return everything that is wrong with the templates of a book, in order.

    Args:
        book: the book's folder.
    """
    own = own_templates(book)
    problems = [*own.problems, *unused(own), *_strays(book)]
    for kind in DocumentKind:
        of_kind = own.of(kind)
        if of_kind is None:
            continue
        seen = checked(of_kind, kind)
        problems += seen
        if not any(problem.severity is Severity.ERROR for problem in seen):
            problems += _tried(of_kind, kind)
    return in_order(problems)


def made_up(hint: Any, *, full: bool) -> Any:
    """Return a value of a type as views have them.

    Args:
        hint: the type.
        full: whether everything that may be missing is there.
    """
    if is_dataclass(hint) and isinstance(hint, type):
        hints = get_type_hints(hint)
        return hint(**{one.name: made_up(hints[one.name], full=full) for one in fields(hint)})
    if get_origin(hint) is tuple:
        parts = get_args(hint)
        if parts[-1] is Ellipsis:
            return (made_up(parts[0], full=full),) if full else ()
        return tuple(made_up(part, full=full) for part in parts)
    if get_origin(hint) is UnionType:
        return made_up(next(part for part in get_args(hint) if part is not NoneType), full=full) if full else None
    values: dict[Any, Any] = {str: "words" if full else "", bool: full, int: 1, float: 1.0}
    return values[hint]


def _tried(own: OwnTemplates, kind: DocumentKind) -> Iterator[Problem]:
    """Yield what shows first when a document's template is run."""
    for full in (True, False):
        view = replace(made_up(VIEWS[kind], full=full), language=_LANGUAGE)
        try:
            with speaking(_LANGUAGE):
                rendered(own_environment(own.sources), kind, values_of(view, _DAY))
        except TemplateFaultError as fault:
            sure = full and fault.problem.code != MAY_FAIL
            yield fault.problem if sure else replace(fault.problem, severity=Severity.WARNING)
            return


def _strays(book: Path) -> Iterator[Problem]:
    """Yield a warning for each file beside the templates that is none."""
    folder = book / TEMPLATES
    known = [kind.template for kind in DocumentKind]
    for path in sorted(folder.iterdir()) if folder.is_dir() else ():
        if path.name.startswith(".") or path.suffix == ".jinja":
            continue
        nearest = nearest_name(path.name, known)
        mend = f"rename it to {nearest}" if nearest else "move it elsewhere"
        place = Place(f"{TEMPLATES}/{path.name}")
        yield warning("stray-file", place, f"{path.name} is no template and is not read", "files .jinja", mend)
