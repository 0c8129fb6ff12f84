"""What was read of a structured file, with the place of every value."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from soilrota.problems import Place

Path = tuple[str | int, ...]


def path_text(path: Path) -> str:
    """Return a path in words: `farms[0].zones[2].area_ha`."""
    text = ""
    for step in path:
        text += f"[{step}]" if isinstance(step, int) else f".{step}" if text else step
    return text


@dataclass(slots=True)
class Node:
    """One node of a file: a scalar's text, the entries of a mapping, or the items of a list.

    Attributes:
        line, column: where it begins, from 1.
        text: the scalar's text; None for a mapping or a list.
        plain: whether a scalar stands without quotes.
        entries: (key, value) of a mapping; None otherwise.
        items: items of a list; None otherwise.
    """

    line: int
    column: int
    text: str | None = None
    plain: bool = False
    entries: list[tuple[Node, Node]] | None = None
    items: list[Node] | None = None

    def child(self, step: str | int) -> Node | None:
        """Return the value under a key or an index; None where there is none."""
        if isinstance(step, int):
            return self.items[step] if self.items is not None and -1 < step < len(self.items) else None
        return next((value for key, value in self.entries or () if key.text == step), None)

    def key(self, step: str | int) -> Node | None:
        """Return the key itself, or the item of a list; None where there is none."""
        if isinstance(step, int):
            return self.child(step)
        return next((key for key, _ in self.entries or () if key.text == step), None)


@dataclass(frozen=True, slots=True)
class Document:
    """A checked file.

    Attributes:
        name: the file's name in the book.
        data: plain values: dict, list, str, int, float, bool, None; dates stay ISO text.
        root: the nodes behind the values.
        left_out: places of the entries in which a key was left out because its value cannot be used.
    """

    name: str
    data: Any
    root: Node = field(repr=False, compare=False)
    left_out: tuple[str, ...] = ()

    def place(self, *path: str | int) -> Place:
        """Return the place of the value at the path, or of the nearest one above that is written."""
        return place_of(self.root, self.name, path)

    def key_place(self, *path: str | int) -> Place:
        """Return the place of the key at the path, or of the nearest value above that is written."""
        return place_of(self.root, self.name, path, key=True)


def place_of(root: Node, name: str, path: Path, *, key: bool = False) -> Place:
    """Return the place of the value (or the key) at the path below a node, or of the nearest one above."""
    node = root
    for position, step in enumerate(path):
        below = node.key(step) if key and position == len(path) - 1 else node.child(step)
        if below is None:
            break
        node = below
    return Place(name, node.line, node.column, path_text(path))
