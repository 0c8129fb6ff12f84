"""A practice's own templates: read from the folder `templates` of its book, and run where a document has one.

A practice overrides blocks of a shipped template in a file of the same name that extends it:

    {% extends "shipped/programme.html.jinja" %}
    {% block cautions %}{{ super() }}<p>Our gates are shut by who opens them.</p>{% endblock %}

Only files of the book are read. Whatever is wrong with a template is a problem with its place, and costs the documents
of its kind alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from traceback import walk_tb
from typing import Any

from jinja2 import Environment, TemplateError, TemplateNotFound, TemplateSyntaxError, UndefinedError
from jinja2.exceptions import SecurityError

from soilrota.documents.environments import SHIPPED, Sources
from soilrota.documents.faults import TemplateFaultError
from soilrota.files import nearest_name
from soilrota.files.text import read_text
from soilrota.model.documents import TEMPLATES, DocumentKind
from soilrota.problems import Place, Problem, error

_SUFFIX = ".jinja"
_LARGEST = 1 << 18
_MOST_NAMES = 12
#: Code of a problem that hangs on what a document holds: another document may be made by the same template.
MAY_FAIL = "template-fails"
_OF_DOCUMENTS = frozenset(kind.template for kind in DocumentKind)
_NO_ATTRIBUTE = re.compile(r"'(?:[\w.]*\.)?(\w+) object' has no attribute '(\w+)'")
_NOT_GIVEN = re.compile(r"parameter '\w+' was not provided")
_UNKNOWN = re.compile(r"'(\w+)' is undefined")


@dataclass(frozen=True, slots=True)
class OwnTemplates:
    """The templates of a practice, or those that one document may use.

    Attributes:
        sources: name and text of each that can be read, by name.
        problems: of those that cannot.
    """

    sources: Sources = ()
    problems: tuple[Problem, ...] = ()

    def of(self, kind: DocumentKind) -> OwnTemplates | None:
        """Return what one document may use: its own template, and what is no document's; None where it has none."""
        folder = tuple(problem for problem in self.problems if problem.place.file == TEMPLATES)
        names = {name for name, _ in self.sources} | {_name(problem) for problem in self.problems}
        if kind.template not in names and not folder:
            return None
        return OwnTemplates(
            tuple((name, text) for name, text in self.sources if _may_use(kind, name)),
            folder or tuple(problem for problem in self.problems if _may_use(kind, _name(problem))),
        )

    def digest(self) -> str:
        """Return the SHA-256 of it all."""
        return sha256(repr((self.sources, self.problems)).encode()).hexdigest()


def own_templates(book: Path) -> OwnTemplates:
    """Read the templates of a book.

    Args:
        book: the book's folder.
    """
    folder = book / TEMPLATES
    if not folder.is_dir():
        return OwnTemplates()
    if not folder.resolve().is_relative_to(book.resolve()):
        return OwnTemplates(problems=(_leaves_book(TEMPLATES),))
    sources: list[tuple[str, str]] = []
    problems: list[Problem] = []
    for path in sorted(folder.glob(f"[!.]*{_SUFFIX}")):
        place = f"{TEMPLATES}/{path.name}"
        if not path.resolve().is_relative_to(book.resolve()):
            problems.append(_leaves_book(place))
        elif not path.is_file():
            problems.append(error("cannot-read", Place(place), "this is no file", "a template", "move it elsewhere"))
        else:
            text, found = read_text(path, place, _LARGEST)
            problems += found
            sources += [] if text is None else [(path.name, text)]
    return OwnTemplates(tuple(sources), tuple(problems))


def rendered(environment: Environment, kind: DocumentKind, values: Mapping[str, Any]) -> str:
    """Return a document by the practice's own template.

    Args:
        environment: as `own_environment` gives it.
        kind: which document.
        values: what the template is given.

    Raises:
        TemplateFaultError: the template cannot be run; a fault in a shipped template is raised as it is.
    """
    try:
        return environment.get_template(kind.template).render(values)
    except MemoryError:
        raise
    except Exception as fault:
        place = _place(fault)
        if place is None:
            raise
        raise TemplateFaultError(_problem(fault, place, values)) from fault


def syntax_problem(fault: TemplateSyntaxError, place: Place) -> Problem:
    """Return that a template cannot be read as one."""
    found = (fault.message or "this is no template").rstrip(".")
    mend = "see that every tag is closed, and spelt as in the shipped template"
    return error("template-syntax", place, found, "", mend)


def unknown_name(place: Place, what: str, word: str, names: set[str] | frozenset[str]) -> Problem:
    """Return that a name means nothing in a template, with the nearest that does."""
    nearest = nearest_name(word, names)
    listed = f", or name one of {', '.join(sorted(names))}" if len(names) <= _MOST_NAMES else ""
    mend = f"write {nearest}" if nearest else f"take it out{listed}"
    return error("template-name", place, f"there is no {what} '{word}'", "a name that the document knows", mend)


def refused_problem(own: OwnTemplates, kind: DocumentKind, words: str) -> Problem:
    """Return that a template asks for something that documents may not show, at the line that names it.

    Args:
        own: what the document may use.
        kind: which document.
        words: what was refused, in words, the address in quotes.
    """
    address = next(iter(re.findall(r"'([^']+)'", words)), "").removeprefix("book:")
    for name, text in own.sources:
        for number, line in enumerate(text.splitlines(), start=1):
            if address and address in line:
                return _refused(Place(f"{TEMPLATES}/{name}", number), words)
    return _refused(Place(f"{TEMPLATES}/{kind.template}"), words)


def _refused(place: Place, words: str) -> Problem:
    """Return that something may not be shown."""
    return error("template-not-allowed", place, words, "the practice's logo and nothing else", "take it out")


def _name(problem: Problem) -> str:
    """Return the template that a problem is about."""
    return problem.place.file.removeprefix(f"{TEMPLATES}/")


def _may_use(kind: DocumentKind, name: str) -> bool:
    """Return whether a document may use a template: its own, or one that is no document's."""
    return name == kind.template or name not in _OF_DOCUMENTS


def _leaves_book(place: str) -> Problem:
    """Return that a link leads out of the book."""
    return error(
        "link-leaves-book", Place(place), "a link that leads out of the book", "a file of the book", "copy it in"
    )


def _place(fault: BaseException) -> Place | None:
    """Return the line of a template of the practice at which a fault arose; None where it arose in none."""
    ours = f"{TEMPLATES}/"
    if isinstance(fault, TemplateSyntaxError):
        file = fault.filename or ""
        return Place(file, fault.lineno) if file.startswith(ours) else None
    lines = [(frame.f_code.co_filename, line) for frame, line in walk_tb(fault.__traceback__)]
    return next((Place(file, line) for file, line in reversed(lines) if file.startswith(ours)), None)


def _problem(fault: Exception, place: Place, values: Mapping[str, Any]) -> Problem:
    """Return what a template got wrong while it ran."""
    if isinstance(fault, TemplateSyntaxError):
        return syntax_problem(fault, place)
    if isinstance(fault, UndefinedError):
        return _undefined(fault, place, values)
    words = " ".join(str(fault).split()).rstrip(".")
    if isinstance(fault, SecurityError):
        mend = "use what the view holds and nothing behind it"
        return error("template-not-allowed", place, f"a template may not do this: {words}", "", mend)
    if isinstance(fault, TemplateNotFound):
        mend = f"name a template of the folder, or {SHIPPED}macros.jinja"
        return error("template-parent", place, f"there is no template '{fault.name}'", "a template that exists", mend)
    if isinstance(fault, TemplateError):
        return error("template-fault", place, words, "", "print a value that is text")
    found = f"this cannot be worked out: {words or type(fault).__name__}"
    return error(MAY_FAIL, place, found, "", "correct the line, or ask first whether it can be")


def _undefined(fault: UndefinedError, place: Place, values: Mapping[str, Any]) -> Problem:
    """Return that a template asked for a name that there is not."""
    words = fault.message or "a name is undefined"
    if attribute := _NO_ATTRIBUTE.fullmatch(words):
        owner, word = attribute.groups()
        return unknown_name(place, f"value of a {owner} named", word, frozenset(_fields(values, owner)))
    if name := _UNKNOWN.fullmatch(words):
        return unknown_name(place, "value named", name[1], frozenset(values))
    if _NOT_GIVEN.fullmatch(words):
        return error("template-fault", place, words, "a value for each parameter", "give it a value")
    mend = "ask first whether it is there: {% if … %}"
    return error(MAY_FAIL, place, words, "a value that is there", mend)


def _fields(values: Mapping[str, Any], owner: str) -> Iterator[str]:
    """Yield the names of the values of a part of the view, by the part's name."""
    waiting = list(values.values())
    while waiting:
        value = waiting.pop()
        if isinstance(value, tuple):
            waiting += value
        elif hasattr(value, "__dataclass_fields__"):
            if type(value).__name__ == owner:
                yield from value.__dataclass_fields__
                return
            waiting += [getattr(value, name) for name in value.__dataclass_fields__]
