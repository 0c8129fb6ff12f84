"""JSON (RFC 8259) to nodes with places, strictly: each key once, no NaN, nothing after the end."""

from __future__ import annotations

import json
import re
import unicodedata
from dataclasses import dataclass, field
from pathlib import Path

from soilrota.files.document import Node
from soilrota.files.text import place_at, read_text
from soilrota.problems import Place, Problem, error

LARGEST_MAP = 20 << 20
DEEPEST = 50
_TOKEN = re.compile(
    r"""[ \t\r\n]*(?:(?P<mark>[{}\[\],:])|(?P<text>"(?:[^"\\\x00-\x1f]|\\.)*")"""
    r"""|(?P<word>-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?(?![0-9A-Za-z_.+-])|true|false|null)|(?P<end>\Z))"""
)


def parse_json(file: Path, name: str) -> tuple[Node | None, tuple[Problem, ...]]:
    """Read one JSON file to nodes.

    Args:
        file: where it lies.
        name: its name in the book.

    Returns:
        The mapping at the top; None with the problems found where the file has an error.
    """
    text, problems = read_text(file, name, LARGEST_MAP)
    return (None, problems) if text is None else parse_json_text(text, name)


def parse_json_text(text: str, name: str) -> tuple[Node | None, tuple[Problem, ...]]:
    """Read JSON text to nodes, as `parse_json` does for a file."""
    parser = _Parser(text, name)
    parser.run()
    if parser.problems:
        return None, tuple(parser.problems)
    if parser.root is None or parser.root.entries is None:
        mend = "begin with '{' and a FeatureCollection"
        code = "empty-document" if not text.strip() else "not-a-mapping"
        return None, (error(code, Place(name, 1, 1), "the file is no JSON object", "an object", mend),)
    return parser.root, ()


@dataclass(slots=True)
class _Parser:
    """Reads tokens one by one, with a stack of its own instead of calls inside calls."""

    text: str
    name: str
    problems: list[Problem] = field(default_factory=list)
    root: Node | None = None
    stack: list[Node] = field(default_factory=list)
    keys: list[Node | None] = field(default_factory=list)
    seen: list[dict[str, Node]] = field(default_factory=list)
    line: int = 1
    line_start: int = 0
    counted: int = 0
    #: What may come next: a value, a key, a colon, or a comma or closing mark; `first` allows a closing mark too.
    awaits: str = "value"
    first: bool = False

    def run(self) -> None:
        """Read the whole text, or up to its first error of form."""
        position = 0
        while not self._stopped():
            match = _TOKEN.match(self.text, position)
            if match is None:
                blank = re.compile(r"[ \t\r\n]*").match(self.text, position)
                self._fault(blank.end() if blank else position, "this is no JSON")
                return
            position = match.end()
            if match["end"] is not None:
                if self.root is None or self.stack:
                    self._fault(match.start("end"), "the file ends too early")
                return
            self._take(match)

    def _stopped(self) -> bool:
        """Return whether an error of form was met."""
        return any(problem.code != "duplicate-key" for problem in self.problems)

    def _node(self, index: int) -> Node:
        """Return a node for the token at an index."""
        self.line += self.text.count("\n", self.counted, index)
        self.line_start = self.text.rfind("\n", 0, index) + 1
        self.counted = index
        return Node(self.line, index - self.line_start + 1)

    def _fault(self, index: int, found: str) -> None:
        """Note an error of form."""
        place = place_at(self.text, index, self.name)
        self.problems.append(error("not-json", place, found, "", "mend the file's form, or save it again as GeoJSON"))

    def _take(self, match: re.Match[str]) -> None:
        """Take one token."""
        kind = str(match.lastgroup)
        index = match.start(kind)
        if kind == "mark":
            self._mark(match[kind], index)
        elif self.awaits == "key" and kind == "text":
            self._key(match[kind], index)
        elif self.awaits == "value":
            node = self._node(index)
            node.plain = kind == "word"
            node.text = match[kind] if node.plain else self._string(match[kind], index)
            self._add(node)
        else:
            self._fault(index, f"a value stands where a {self._wanted()} is due")

    def _string(self, token: str, index: int) -> str:
        """Return the text of a string."""
        try:
            return unicodedata.normalize("NFC", str(json.loads(token)))
        except ValueError:
            self._fault(index, "this text holds an escape that JSON does not know")
            return ""

    def _wanted(self) -> str:
        """Return what is awaited, in words."""
        return {"key": "key in quotes", "colon": "':'", "more": "',' or a closing bracket"}.get(self.awaits, "value")

    def _mark(self, mark: str, index: int) -> None:
        """Take a bracket, comma or colon."""
        closing = mark in "}]"
        if mark in "{[" and self.awaits == "value":
            self._open(mark, index)
        elif closing and self.stack and (self.awaits == "more" or self.first):
            node = self.stack.pop()
            self.keys.pop()
            self.seen.pop()
            if (node.entries is not None) != (mark == "}"):
                self._fault(index, f"'{mark}' closes what it did not open")
            self.awaits, self.first = "more", False
        elif mark == "," and self.awaits == "more" and self.stack:
            self.awaits, self.first = "key" if self.stack[-1].entries is not None else "value", False
        elif mark == ":" and self.awaits == "colon":
            self.awaits = "value"
        else:
            self._fault(index, f"'{mark}' stands where a {self._wanted()} is due")

    def _open(self, mark: str, index: int) -> None:
        """Begin an object or an array."""
        node = self._node(index)
        if len(self.stack) >= DEEPEST:
            self._fault(index, f"values stand in one another more than {DEEPEST} deep")
            return
        if mark == "{":
            node.entries = []
        else:
            node.items = []
        self._add(node)
        self.stack.append(node)
        self.keys.append(None)
        self.seen.append({})
        self.awaits, self.first = ("key" if mark == "{" else "value"), True

    def _key(self, token: str, index: int) -> None:
        """Take the key of an object's entry."""
        node = self._node(index)
        node.text = self._string(token, index)
        before = self.seen[-1].setdefault(node.text, node)
        if before is not node:
            place = Place(self.name, node.line, node.column)
            found = f"the key '{node.text}' stands here and on line {before.line}"
            self.problems.append(error("duplicate-key", place, found, "each key once", "keep one of the two"))
        self.keys[-1] = node
        self.awaits, self.first = "colon", False

    def _add(self, node: Node) -> None:
        """Put a node where it belongs."""
        self.awaits, self.first = "more", False
        if not self.stack:
            if self.root is not None:
                self._fault(self.counted, "something stands after the end")
            self.root = self.root or node
            return
        parent, key = self.stack[-1], self.keys[-1]
        if parent.items is not None:
            parent.items.append(node)
        elif parent.entries is not None and key is not None:
            parent.entries.append((key, node))
            self.keys[-1] = None
