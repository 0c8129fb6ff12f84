"""What was advised when a report was signed: written by the engine alone, never changed, read with its problems.

`records/advice/<client-id>/<day>.json` holds the advice of one signature; a second one of the same day, after a change,
stands in `<day>-2.json`. The same advice gives the same bytes.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping
from dataclasses import asdict, fields, is_dataclass, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar, get_args, get_type_hints

from soilrota.files import replace_file
from soilrota.model.advice import Input
from soilrota.model.follow_up import AdviceRecord
from soilrota.problems import Place, Problem, error

if TYPE_CHECKING:
    from soilrota.files.document import Node

FOLDER = "records/advice"
_NAME = re.compile(r"(\d{4}-\d\d-\d\d)(?:-(\d+))?\.json")
_Record = TypeVar("_Record")


class _WrongError(Exception):
    """A value of a record that cannot be used, its node and what was expected there."""

    def __init__(self, node: Node, found: str, expected: str) -> None:
        super().__init__(found)
        self.node, self.found, self.expected = node, found, expected


def write_advice(root: Path, record: AdviceRecord) -> bool:
    """Write what was advised, beside what stands already; return whether a file was written.

    Raises:
        OSError: it cannot be written.
    """
    content = f"{json.dumps(asdict(record), ensure_ascii=False, indent=1, sort_keys=True, default=_text)}\n".encode()
    folder, number = root / FOLDER / record.client, 1
    while True:
        path = folder / (f"{record.day}.json" if number == 1 else f"{record.day}-{number}.json")
        if not path.exists():
            replace_file(path, content)
            return True
        if path.read_bytes() == content:
            return False
        number += 1


def read_advice(root: Path, client: str) -> tuple[tuple[AdviceRecord, ...], tuple[Problem, ...]]:
    """Return what a client was advised, by day and in the order of signing, and what is wrong with the records.

    Args:
        root: the book's folder.
        client: id of the client.

    Returns:
        The records that can be read, none where nothing was ever signed; and the problems, `damaged-advice`.
    """
    folder = root / FOLDER / client
    names = (
        [found for path in folder.glob("*.json") if (found := _NAME.fullmatch(path.name))] if folder.is_dir() else []
    )
    read = [_read(root, f"{FOLDER}/{client}/{one[0]}", client) for one in sorted(names, key=_order)]
    records = tuple(one for one in read if isinstance(one, AdviceRecord))
    return records, tuple(problem for one in read if not isinstance(one, AdviceRecord) for problem in one)


def _order(name: re.Match[str]) -> tuple[str, int]:
    """Return where a file stands: by day, then in the order of signing."""
    return name[1], int(name[2] or 1)


def _text(value: object) -> str:
    """Return a day as text."""
    assert isinstance(value, date), value
    return value.isoformat()


def _read(root: Path, name: str, client: str) -> AdviceRecord | tuple[Problem, ...]:
    """Return one record, or what is wrong with it."""
    from soilrota.files.json_nodes import parse_json  # noqa: PLC0415 - a client that nobody signed for needs none

    node, problems = parse_json(root / name, name)
    if node is None:
        return tuple(replace(one, code="damaged-advice", mend=_mend(name)) for one in problems)
    try:
        record = _built(AdviceRecord, node)
    except _WrongError as wrong:
        place = Place(name, wrong.node.line, wrong.node.column)
        return (error("damaged-advice", place, wrong.found, wrong.expected, _mend(name)),)
    if record.client != client:
        place = Place(name, 1, 1)
        return (error("damaged-advice", place, f"the advice is for {record.client}", client, _mend(name)),)
    return record


def _mend(name: str) -> str:
    """Return how a damaged record is mended."""
    return f"restore {name} from a backup; where there is none, move it away, and that advice is not followed up"


def _built(kind: type[_Record], node: Node) -> _Record:
    """Return a record of a kind, each of its fields once and nothing else.

    Raises:
        _WrongError: a value cannot be used.
    """
    assert is_dataclass(kind)
    hints = get_type_hints(kind)
    names = [one.name for one in fields(kind)]
    for key, _ in node.entries or ():
        if key.text not in hints:
            raise _WrongError(key, f"nothing is called {key.text} here", ", ".join(names))
    return kind(**{name: _value(hints[name], _child(node, name)) for name in names})


def _child(node: Node, name: str) -> Node:
    """Return the value under a name.

    Raises:
        _WrongError: it is not there.
    """
    found = node.child(name) if node.entries is not None else None
    if found is None:
        raise _WrongError(node, f"{name} is missing", f"an object with {name}")
    return found


def _value(hint: Any, node: Node) -> Any:
    """Return a value of a type.

    Raises:
        _WrongError: it is of another.
    """
    parts = get_args(hint)
    if type(None) in parts:
        is_none = node.plain and node.text == "null"
        return None if is_none else _value(next(one for one in parts if one is not type(None)), node)
    if parts:
        if node.items is None:
            raise _WrongError(node, "this is no list", "a list")
        return tuple(_value(parts[0], one) for one in node.items)
    if is_dataclass(hint):
        return _built(hint, node)  # type: ignore[arg-type]
    words, convert, is_plain = _SCALARS[hint]
    wrong = _WrongError(node, f"{node.text or 'this'} is no {words}", f"a {words}")
    if node.text is None or node.plain is not is_plain:
        raise wrong
    try:
        return convert(node.text)
    except ValueError:
        raise wrong from None


_SCALARS: Mapping[Any, tuple[str, Callable[[str], Any], bool]] = {
    str: ("text", str, False),
    float: ("number", float, True),
    int: ("whole number", int, True),
    date: ("day", date.fromisoformat, False),
    Input: ("input of advice", Input, False),
}
