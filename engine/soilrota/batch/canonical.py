"""One text for one meaning: model values serialised so that equal digests mean that the values say the same.

Left out is what says nothing: where a value stands in a file (`Place`), and fields at their default, so that a field
that a later engine adds to the model changes no digest as long as nobody uses it. Numbers are written to twelve
significant digits: nobody measures more, and another machine may reckon the digits behind them otherwise.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Iterable, Mapping
from dataclasses import MISSING, Field, fields, is_dataclass
from datetime import date
from functools import cache
from hashlib import sha256
from typing import Any

from soilrota.problems import Place

_NO_DEFAULT = object()


def canonical(value: object, without: Collection[str] = ()) -> str:
    """Return the text of a value: JSON with sorted keys.

    Args:
        value: frozen dataclasses, mappings with text keys, sequences, sets, texts, numbers, days, None, any way nested.
        without: fields of the value itself, where it is a dataclass, that are left out.

    Raises:
        TypeError: it holds something else, a fault of the program.
    """
    plain = _of_dataclass(value, without) if is_dataclass(value) else _plain(value)
    return json.dumps(plain, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False)


def digest_of_texts(texts: Iterable[str]) -> str:
    """Return the SHA-256 of canonical texts, one after the other, in hexadecimal."""
    return sha256("\n".join(texts).encode()).hexdigest()


def _plain(value: object) -> Any:
    """Return a value as JSON can hold it."""
    if value is None or isinstance(value, bool | int):
        return value
    if isinstance(value, str):
        return str(value)
    if isinstance(value, float):
        return _number(value)
    if isinstance(value, date):
        return value.isoformat()
    if is_dataclass(value):
        return _of_dataclass(value, ())
    if isinstance(value, Mapping):
        if not all(isinstance(key, str) for key in value):
            raise TypeError("only texts can be keys")
        return {str(key): _plain(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(inner) for inner in value]
    if isinstance(value, frozenset | set):
        return sorted(canonical(inner) for inner in value)
    raise TypeError(f"a {type(value).__name__} has no canonical text")


def _of_dataclass(value: Any, without: Collection[str]) -> dict[str, Any]:
    """Return what a dataclass says, by field."""
    said = {}
    for name, default in _fields(value.__class__):
        inner = getattr(value, name)
        if name not in without and not isinstance(inner, Place) and (default is _NO_DEFAULT or inner != default):
            said[name] = _plain(inner)
    return said


@cache
def _fields(kind: type[Any]) -> tuple[tuple[str, object], ...]:
    """Return the names of a dataclass's fields, each with its default; a place says nothing even where it is None."""
    return tuple((field.name, _default(field)) for field in fields(kind) if field.name != "place")


def _default(field: Field[Any]) -> object:
    """Return the default of a field."""
    if field.default is not MISSING:
        return field.default
    return _NO_DEFAULT if field.default_factory is MISSING else field.default_factory()


def _number(value: float) -> float:
    """Return a number to twelve significant digits; 9 and 9.0 are one number, and nought has no sign."""
    rounded = float(f"{value:.12g}")
    return int(rounded) if rounded.is_integer() else rounded
