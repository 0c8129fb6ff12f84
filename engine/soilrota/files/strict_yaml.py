"""YAML as a strict subset: what stands there is what is meant, and everything has a place.

The C parser's events are read one by one and nothing is built beyond the limits, so no file can make the reader slow
or deep: anchors, aliases, merge keys, tags and second documents are refused where they stand.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import yaml

from soilrota.files.document import Node
from soilrota.files.text import read_text
from soilrota.language import phrase
from soilrota.problems import Place, Problem, error, warning

LARGEST_FILE = 1 << 20
DEEPEST = 50
_LONGEST_SCALAR = 20_000
_CUT_BY_COMMENT = re.compile(r"[ \t]+#\S")
_WORDS = {
    "found character '\\t' that cannot start any token": "a tab stands where blanks are meant",
    "found a tab character that violates indentation": "a tab stands where blanks are meant",
    "could not find expected ':'": "a line has no ': ' between key and value",
    "mapping values are not allowed in this context": "a ': ' stands where no new key can begin",
    "did not find expected key": "this line does not fit the lines above: look at its indentation",
    "did not find expected ',' or ']'": "a list in brackets is not closed",
    "did not find expected ',' or '}'": "a mapping in braces is not closed",
    "found unexpected end of stream": "the file ends inside a quoted text",
    "block sequence entries are not allowed in this context": "a '- ' stands where no list can begin",
    "found undefined alias": "an alias refers to nothing",
}


def parse_yaml(file: Path, name: str) -> tuple[Node | None, tuple[Problem, ...]]:
    """Read one YAML file to nodes.

    Args:
        file: where it lies.
        name: its name in the book.

    Returns:
        The mapping at the top; None with all problems found where the file has an error.
    """
    text, problems = read_text(file, name, LARGEST_FILE)
    return (None, problems) if text is None else parse_text(text, name)


def parse_text(text: str, name: str) -> tuple[Node | None, tuple[Problem, ...]]:
    """Read YAML text to nodes, as `parse_yaml` does for a file."""
    builder = _Builder(name, text.splitlines())
    try:
        for event in yaml.parse(text, Loader=yaml.CSafeLoader):
            if not builder.take(event):
                break
    except yaml.MarkedYAMLError as fault:
        builder.problems.append(_syntax(fault, name, text))
    except (yaml.YAMLError, ValueError, RecursionError) as fault:
        place = Place(name, 1, 1)
        builder.problems.append(error("not-yaml", place, f"this is no YAML ({fault})", "", "mend the file's form"))
    root = builder.root
    errors = [problem for problem in builder.problems if problem.severity == "error"]
    if not errors:
        builder.problems += _not_a_mapping(root, name)
    if root is None or root.entries is None or errors:
        return None, tuple(builder.problems)
    return root, tuple(builder.problems)


def _not_a_mapping(root: Node | None, name: str) -> Iterator[Problem]:
    """Yield what is wrong with the top of a document that is no mapping."""
    mend = "begin with 'key: value' lines"
    if root is None or (root.text == "" and root.plain):
        yield error("empty-document", Place(name, 1, 1), "the document is empty", "keys and values", mend)
    elif root.entries is None:
        found = "a list" if root.items is not None else "a single value"
        yield error("not-a-mapping", Place(name, root.line, root.column), f"the file is {found}", "a mapping", mend)


def _syntax(fault: yaml.MarkedYAMLError, name: str, text: str) -> Problem:
    """Return a syntax error in plain words."""
    mark = fault.problem_mark or fault.context_mark
    place = Place(name, mark.line + 1, mark.column + 1) if mark else Place(name, 1, 1)
    lines = text.splitlines()
    line = lines[place.line - 1] if place.line <= len(lines) else ""
    if "\t" in line[: place.column] and not line[: place.column].strip():
        return error("tab", place, "a tab stands where blanks are meant", "", "indent with blanks only")
    said = fault.problem or "the form is not YAML"
    words = _WORDS.get(said, said)
    code = "tab" if "a tab stands" in words else "not-yaml"
    mend = "indent with blanks only" if code == "tab" else "mend this line or the one above it"
    return error(code, place, words, "", mend)


@dataclass(slots=True)
class _Builder:
    """Builds nodes from events, with a stack of its own instead of calls inside calls."""

    name: str
    lines: list[str]
    problems: list[Problem] = field(default_factory=list)
    root: Node | None = None
    stack: list[Node] = field(default_factory=list)
    keys: list[Node | None] = field(default_factory=list)
    seen: list[dict[str, Node]] = field(default_factory=list)
    documents: int = 0

    def take(self, event: yaml.Event) -> bool:
        """Take one event; return False when nothing further is worth reading."""
        mark = event.start_mark
        place = Place(self.name, mark.line + 1, mark.column + 1) if mark else Place(self.name)
        if isinstance(event, yaml.DocumentStartEvent):
            return self._document(place)
        if isinstance(event, yaml.AliasEvent):
            return self._refuse("alias", place, f"the alias '*{event.anchor}'", "write the value out")
        if isinstance(event, yaml.NodeEvent):
            if event.anchor is not None:
                return self._refuse("anchor", place, f"the anchor '&{event.anchor}'", "take it out")
            tag = getattr(event, "tag", None)
            if tag is not None:
                return self._refuse("tag", place, f"the tag '{tag}'", "take it out")
        if isinstance(event, yaml.ScalarEvent):
            return self._scalar(event, place)
        if isinstance(event, yaml.MappingStartEvent | yaml.SequenceStartEvent):
            return self._open(Node(place.line, place.column), place, mapping=isinstance(event, yaml.MappingStartEvent))
        if isinstance(event, yaml.MappingEndEvent | yaml.SequenceEndEvent):
            self.stack.pop()
            self.keys.pop()
            self.seen.pop()
        return True

    def _document(self, place: Place) -> bool:
        """Begin a document; a second one is refused."""
        self.documents += 1
        if self.documents > 1:
            return self._refuse("second-document", place, "a second document (after '---')", "keep one document")
        return True

    def _refuse(self, code: str, place: Place, found: str, mend: str) -> bool:
        """Note something that this subset of YAML does not have, and stop."""
        self.problems.append(error(code, place, f"{found} is not used in these files", "", mend))
        return False

    def _scalar(self, event: yaml.ScalarEvent, place: Place) -> bool:
        """Add a scalar; warn where an unquoted ' #' cut it short."""
        plain = not event.style
        text = unicodedata.normalize("NFC", event.value)
        if len(text) > _LONGEST_SCALAR:
            found, expected = f"a value of {len(text):,} characters", f"at most {_LONGEST_SCALAR:,}"
            self.problems.append(error("too-long", place, found, expected, "shorten it"))
            return False
        end = event.end_mark
        if (
            plain
            and text
            and end
            and end.line < len(self.lines)
            and _CUT_BY_COMMENT.match(self.lines[end.line][end.column :])
        ):
            found = phrase("'{text}' is followed by ' #', which begins a comment", text=text)
            mend = phrase("put quotes round the whole value if '#' belongs to it")
            self.problems.append(warning("cut-by-comment", place, found, "", mend))
        return self._add(Node(place.line, place.column, text, plain), place)

    def _open(self, node: Node, place: Place, *, mapping: bool) -> bool:
        """Begin a mapping or a list."""
        if len(self.stack) >= DEEPEST:
            found = f"values stand in one another more than {DEEPEST} deep"
            self.problems.append(error("too-deep", place, found, "", "write it flatter"))
            return False
        if mapping:
            node.entries = []
        else:
            node.items = []
        more = self._add(node, place)
        self.stack.append(node)
        self.keys.append(None)
        self.seen.append({})
        return more

    def _add(self, node: Node, place: Place) -> bool:
        """Put a node where it belongs: under the open key, into the open list, or at the top."""
        if not self.stack:
            self.root = node
            return True
        parent = self.stack[-1]
        if parent.items is not None:
            parent.items.append(node)
            return True
        key = self.keys[-1]
        if key is None:
            return self._key(node, place)
        if parent.entries is not None:
            parent.entries.append((key, node))
        self.keys[-1] = None
        return True

    def _key(self, node: Node, place: Place) -> bool:
        """Take a node as the next key of a mapping."""
        if node.text is None:
            return self._refuse("key-not-text", place, "a key that is itself a list or a mapping", "write a plain word")
        if node.plain and node.text == "<<":
            return self._refuse("merge-key", place, "the merge key '<<'", "write the keys out")
        first = self.seen[-1].setdefault(node.text, node)
        if first is not node:
            found = f"the key '{node.text}' stands here and on line {first.line}"
            self.problems.append(error("duplicate-key", place, found, "each key once", "keep one of the two"))
        self.keys[-1] = node
        return True
