"""What can be seen of a practice's templates without running them: parents, blocks, names, and what must stay.

Cautions, the signature, and the parts in which the one or the other stand may be added to, never replaced: such a block
calls `super()`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache, lru_cache

from jinja2 import Environment, TemplateSyntaxError, nodes
from jinja2.meta import find_undeclared_variables

from soilrota.documents.environments import SHIPPED, own_environment, shipped_environment
from soilrota.documents.own_templates import OwnTemplates, syntax_problem, unknown_name
from soilrota.files import nearest_name
from soilrota.model.documents import TEMPLATES, DocumentKind
from soilrota.problems import Place, Problem, error, in_order, warning

#: Blocks that hold what nobody may lose: they are added to, not replaced.
KEPT = frozenset(
    {"body", "cautions", "draft", "signature", "farms", "farm", "zones", "zone", "pages", "page", "advice"}
)
#: What every template is given.
GIVEN = frozenset({"view", "day_iso", "day_words"})
_MACROS = f"{SHIPPED}macros.jinja"
_OF_THE_LANGUAGE = frozenset({"super", "self", "caller", "loop", "varargs", "kwargs"})


@dataclass(frozen=True, slots=True)
class ShippedBlocks:
    """The blocks of a shipped template: the names that each sees besides those of the whole document; and those."""

    blocks: dict[str, frozenset[str]]
    names: frozenset[str]


@lru_cache(maxsize=16)
def checked(own: OwnTemplates, kind: DocumentKind) -> tuple[Problem, ...]:
    """Return what is wrong with what one document uses, in order.

    Args:
        own: what the document may use, as `OwnTemplates.of` gives it.
        kind: which document.
    """
    environment = own_environment(own.sources)
    used, _, problems = _used(environment, own, kind)
    for name, tree in used.items():
        problems += _words(environment, name, tree)
        if name == kind.template:
            problems += _parent(name, tree, kind)
            problems += _blocks(environment, name, tree, kind)
        else:
            problems += _no_parent(name, tree)
    return in_order((*own.problems, *problems))


def unused(own: OwnTemplates) -> Iterator[Problem]:
    """Yield a warning for each template that no document uses."""
    names = [name for name, _ in own.sources]
    known = {kind.template for kind in DocumentKind}
    used: set[str] = set()
    for kind in DocumentKind:
        if (of_kind := own.of(kind)) is not None:
            used |= _used(own_environment(of_kind.sources), of_kind, kind)[1]
    for name in names:
        if name not in used and name not in known:
            nearest = nearest_name(name, known)
            mend = f"rename it to {nearest}" if nearest else f"include it, or name it after one of {_list(known)}"
            yield warning("template-unused", Place(f"{TEMPLATES}/{name}"), "no document uses this", "", mend)


@cache
def shipped_blocks(kind: DocumentKind) -> ShippedBlocks:
    """Return the blocks of a shipped template and of those that it extends."""
    environment = shipped_environment()
    name: str | None = kind.template
    blocks: dict[str, frozenset[str]] = {}
    names: frozenset[str] = GIVEN
    while name is not None:
        tree = environment.parse(_text(environment, name))
        blocks = {**dict(_within(tree, frozenset())), **blocks}
        names |= _stored_outside_blocks(tree)
        name = next((str(one.template.value) for one in _extends(tree) if isinstance(one.template, nodes.Const)), None)
    return ShippedBlocks(blocks, names)


def _text(environment: Environment, name: str) -> str:
    """Return the text of a shipped template."""
    assert environment.loader is not None
    return environment.loader.get_source(environment, name)[0]


def _used(
    environment: Environment, own: OwnTemplates, kind: DocumentKind
) -> tuple[dict[str, nodes.Template], set[str], list[Problem]]:
    """Return the document's template and, from there, every template that is named: parsed, all names, the problems."""
    texts = dict(own.sources)
    trees: dict[str, nodes.Template] = {}
    problems: list[Problem] = []
    waiting, seen = [kind.template], {kind.template}
    while waiting:
        name = waiting.pop()
        if name not in texts:
            continue
        try:
            trees[name] = environment.parse(texts[name])
        except TemplateSyntaxError as fault:
            problems.append(syntax_problem(fault, Place(f"{TEMPLATES}/{name}", fault.lineno)))
            continue
        for place, asked in _references(name, trees[name]):
            if asked is None or (asked not in texts and asked != _MACROS):
                problems.append(_no_template(place, asked, texts))
            elif asked not in seen:
                seen.add(asked)
                waiting.append(asked)
    return trees, seen, problems


def _references(name: str, tree: nodes.Template) -> Iterator[tuple[Place, str | None]]:
    """Yield every template that is included or imported, with its place; None where it is not written out."""
    for one in tree.find_all((nodes.Include, nodes.Import, nodes.FromImport)):
        asked: nodes.Expr = one.template  # type: ignore[attr-defined] # all three have one
        written = asked.items if isinstance(asked, nodes.List | nodes.Tuple) else [asked]
        for word in written:
            value = word.value if isinstance(word, nodes.Const) else None
            yield Place(f"{TEMPLATES}/{name}", one.lineno), value if isinstance(value, str) else None


def _no_template(place: Place, asked: str | None, texts: Iterable[str]) -> Problem:
    """Return that what is included or imported is not there."""
    known = {_MACROS, *texts} - {kind.template for kind in DocumentKind}
    expected = f"one of {_list(known)}"
    if asked is None:
        found = "the name of a template is worked out while it runs"
        return error("template-parent", place, found, expected, "write the name in quotes")
    nearest = nearest_name(asked, known - {_MACROS})
    mend = f"write {nearest}" if nearest else f"put the file into {TEMPLATES}, or take the line out"
    return error("template-parent", place, f"there is no template '{asked}' to use here", expected, mend)


def _extends(tree: nodes.Template) -> list[nodes.Extends]:
    """Return what a template extends."""
    return list(tree.find_all(nodes.Extends))


def _parent(name: str, tree: nodes.Template, kind: DocumentKind) -> Iterator[Problem]:
    """Yield that a document's template does not extend the shipped one of its name, once and on every way."""
    wanted = f"{SHIPPED}{kind.template}"
    line = f'{{% extends "{wanted}" %}}'
    found = _extends(tree)
    if not found:
        place = Place(f"{TEMPLATES}/{name}", 1)
        yield error("template-parent", place, "this extends no template", line, "write it as the first line")
    for number, one in enumerate(found):
        parent = one.template.value if isinstance(one.template, nodes.Const) else None
        if parent == wanted and not number and one in tree.body:
            continue
        said = f"'{parent}'" if parent is not None else "something that is worked out while it runs"
        mend = f"write {line} as the first line, and no other"
        yield error("template-parent", Place(f"{TEMPLATES}/{name}", one.lineno), f"this extends {said}", line, mend)


def _no_parent(name: str, tree: nodes.Template) -> Iterator[Problem]:
    """Yield that a template which others use extends something."""
    for one in _extends(tree):
        place = Place(f"{TEMPLATES}/{name}", one.lineno)
        found = "a template that others use extends another"
        yield error("template-parent", place, found, "a template without a parent", "take the line out")


def _blocks(environment: Environment, name: str, tree: nodes.Template, kind: DocumentKind) -> Iterator[Problem]:
    """Yield blocks that the shipped template does not have, that stand twice, or that lose what must be kept."""
    known = shipped_blocks(kind)
    names = known.names | _stored_outside_blocks(tree)
    seen: set[str] = set()
    for block in tree.find_all(nodes.Block):
        place = Place(f"{TEMPLATES}/{name}", block.lineno)
        if block.name not in known.blocks:
            yield _no_block(place, block.name, kind)
            continue
        if block.name in seen:
            found = f"the block '{block.name}' stands here a second time"
            yield error("template-block", place, found, "each block once", "put both into one")
        seen.add(block.name)
        if block.name in KEPT and not _calls_super(block):
            found = f"the block '{block.name}' loses what the shipped template says there"
            mend = "write {{ super() }} where that is to stand"
            yield error("template-keeps", place, found, "what people must know, in full", mend)
        yield from _unknown_in(environment, block, Place(f"{TEMPLATES}/{name}"), names | known.blocks[block.name])


def _no_block(place: Place, name: str, kind: DocumentKind) -> Problem:
    """Return that the shipped template has no block of a name."""
    known = shipped_blocks(kind).blocks
    nearest = nearest_name(name, known)
    mend = f"write {nearest}" if nearest else "put its content into one of these"
    found = f"{SHIPPED}{kind.template} has no block '{name}'"
    return error("template-block", place, found, f"one of {_list(known)}", mend)


def _unknown_in(environment: Environment, block: nodes.Block, place: Place, names: frozenset[str]) -> Iterator[Problem]:
    """Yield the names in a block that nobody gave a value."""
    alone = nodes.Template([block], lineno=1)
    alone.set_environment(environment)
    try:
        asked = find_undeclared_variables(alone)
    except TemplateSyntaxError:
        return  # a filter or a test that there is not: said by itself
    for word in sorted(asked - names - frozenset(environment.globals) - _OF_THE_LANGUAGE):
        lines = [one.lineno for one in block.find_all(nodes.Name) if one.name == word]
        yield unknown_name(Place(place.file, min(lines, default=block.lineno)), "value named", word, names)


def _words(environment: Environment, name: str, tree: nodes.Template) -> Iterator[Problem]:
    """Yield filters and tests that there are not."""
    for one in tree.find_all(nodes.Filter):
        if one.name not in environment.filters:
            place = Place(f"{TEMPLATES}/{name}", one.lineno)
            yield unknown_name(place, "filter", one.name, frozenset(environment.filters))
    for test in tree.find_all(nodes.Test):
        if test.name not in environment.tests:
            place = Place(f"{TEMPLATES}/{name}", test.lineno)
            yield unknown_name(place, "test", test.name, frozenset(environment.tests))


def _calls_super(block: nodes.Block) -> bool:
    """Return whether a block says what the shipped one says."""
    return any(isinstance(one.node, nodes.Name) and one.node.name == "super" for one in block.find_all(nodes.Call))


def _within(node: nodes.Node, names: frozenset[str]) -> Iterator[tuple[str, frozenset[str]]]:
    """Yield the blocks inside a node, each with the names that loops and settings around it give."""
    for child in node.iter_child_nodes():
        inner = names
        if isinstance(child, nodes.Assign):
            names |= _stored(child.target)
        elif isinstance(child, nodes.For):
            inner |= _stored(child.target)
        elif isinstance(child, nodes.Block):
            yield child.name, names if child.scoped else frozenset()
        yield from _within(child, inner)


def _stored(target: nodes.Node) -> frozenset[str]:
    """Return the names that an assignment or a loop gives a value."""
    inside = (one.name for one in target.find_all(nodes.Name))
    return frozenset({*inside, *([target.name] if isinstance(target, nodes.Name) else [])})


def _stored_outside_blocks(node: nodes.Node) -> frozenset[str]:
    """Return the names that a template gives a value for all of its blocks."""
    names: frozenset[str] = frozenset()
    for child in node.iter_child_nodes():
        if isinstance(child, nodes.Block):
            continue
        if isinstance(child, nodes.Macro):
            names |= {child.name}
            continue
        if isinstance(child, nodes.Import):
            names |= {child.target}
        elif isinstance(child, nodes.FromImport):
            names |= {one if isinstance(one, str) else one[1] for one in child.names}
        elif isinstance(child, nodes.Assign):
            names |= _stored(child.target)
        names |= _stored_outside_blocks(child)
    return names


def _list(words: Iterable[str]) -> str:
    """Return words in order, on a line."""
    return ", ".join(sorted(words))
