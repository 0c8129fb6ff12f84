"""From a validator's finding to words: what stands there, what should, and how to mend it."""

from __future__ import annotations

from typing import Any

from soilrota.files.document import Node, Path, place_of
from soilrota.files.formats import fault
from soilrota.files.schemas import Schema, SchemaSet
from soilrota.files.suggest import nearest_name
from soilrota.problems import Problem, error

_KINDS = {
    "string": "text",
    "number": "a number",
    "integer": "a whole number",
    "boolean": "true or false",
    "array": "a list",
    "object": "a mapping of keys and values",
    "null": "nothing",
}
_BOUNDS = {
    "minimum": "at least",
    "maximum": "at most",
    "exclusiveMinimum": "more than",
    "exclusiveMaximum": "less than",
}
_COUNTS = {
    "minItems": ("at least", "entry", "entries"),
    "maxItems": ("at most", "entry", "entries"),
    "minLength": ("at least", "character", "characters"),
    "maxLength": ("at most", "character", "characters"),
    "minProperties": ("at least", "key", "keys"),
    "maxProperties": ("at most", "key", "keys"),
}


def worded(finding: Any, schemas: SchemaSet, file_name: str, root: Node, name: str) -> Problem:
    """Return the problem that a jsonschema `ValidationError` stands for.

    Args:
        finding: the validator's error.
        schemas: the closed set of schemas.
        file_name: which schema the file was held against.
        root: the file's nodes, for places.
        name: the file's name in the book.
    """
    path: Path = tuple(finding.absolute_path)
    schema = schemas.at(file_name, path)
    keyword = str(finding.validator)
    if keyword == "required":
        return _missing(finding.message, path, schemas.at(file_name, (*path, finding.message)), root, name)
    code, found, expected, mend = _WORDERS.get(keyword, _other)(finding, schema)
    on_key = keyword in {"False", "None", "not"}
    return error(code, place_of(root, name, path, key=on_key), found, expected, mend)


def _missing(key: str, path: Path, schema: Schema, root: Node, name: str) -> Problem:
    """Return that a key is missing, at the mapping that lacks it."""
    meaning = f" ({schema['title'].lower()})" if schema.get("title") else ""
    where = f"'{path[-1]}'" if path and isinstance(path[-1], str) else "this entry" if path else "the file"
    example = _example(schema)
    mend = f"add a line '{key}: …'" + (f", for instance {example}" if example else "")
    return error("missing-key", place_of(root, name, path), f"{where} has no '{key}'{meaning}", "", mend)


def described(schema: Schema) -> str:
    """Return what a schema asks for, in its own words: description or title, and an example."""
    words = str(schema.get("description") or schema.get("title") or "").partition(" Default")[0].strip().rstrip(".")
    example = _example(schema)
    if not words:
        return f"something like {example}" if example else "another value"
    return f"{words[0].lower()}{words[1:]}" + (f", for instance {example}" if example else "")


def _example(schema: Schema) -> str:
    """Return the first example of a schema, as it would be written."""
    examples = schema.get("examples") or ()
    if not examples or isinstance(examples[0], dict | list):
        return ""
    return str(examples[0])


def _shown(value: Any) -> str:
    """Return a value as it is shown in a message."""
    if isinstance(value, str):
        return f"'{value[:80]}…'" if len(value) > 80 else f"'{value}'"  # noqa: PLR2004  # what fits on a line
    if isinstance(value, list):
        return "a list"
    if isinstance(value, dict):
        return "a mapping"
    return "nothing" if value is None else str(value).lower() if isinstance(value, bool) else str(value)


def _type(finding: Any, schema: Schema) -> tuple[str, str, str, str]:
    """Word a value of the wrong kind."""
    wanted = finding.validator_value
    kinds = " or ".join(_KINDS[kind] for kind in ([wanted] if isinstance(wanted, str) else wanted) if kind != "null")
    quoted_number = isinstance(finding.instance, str) and kinds in {"a number", "a whole number"}
    mend = "write the number without quotes and without its unit" if quoted_number else f"write {kinds}"
    return "wrong-type", f"{_shown(finding.instance)} stands here", f"{kinds}: {described(schema)}", mend


def _enum(finding: Any, _: Schema) -> tuple[str, str, str, str]:
    """Word a value that is not among those allowed."""
    choices = [str(choice) for choice in finding.validator_value if choice is not None]
    near = nearest_name(str(finding.instance), choices)
    mend = f"write '{near}'" if near else f"write one of {', '.join(choices)}"
    return "unknown-word", f"{_shown(finding.instance)} is not known here", f"one of {', '.join(choices)}", mend


def _pattern(finding: Any, schema: Schema) -> tuple[str, str, str, str]:
    """Word a text of the wrong form."""
    return "wrong-form", f"{_shown(finding.instance)} has the wrong form", described(schema), "correct its form"


def _format(finding: Any, _: Schema) -> tuple[str, str, str, str]:
    """Word a text that is not of its format."""
    found, mend = fault(finding.validator_value, finding.instance) or (finding.message, "correct its form")
    return f"bad-{finding.validator_value}", found, "", mend


def _bound(finding: Any, schema: Schema) -> tuple[str, str, str, str]:
    """Word a number that is too small or too large."""
    limit = f"{_BOUNDS[finding.validator]} {finding.validator_value}"
    expected = f"{limit}: {described(schema)}"
    mend = "check the number and its unit"
    return "out-of-range", f"{_shown(finding.instance)} is out of range", expected, mend


def _count(finding: Any, _: Schema) -> tuple[str, str, str, str]:
    """Word too many or too few of something."""
    words, one, many = _COUNTS[finding.validator]
    size, limit = len(finding.instance), finding.validator_value
    found = f"{size} {one if size == 1 else many}" if size else f"no {one}"
    expected = f"{words} {limit} {one if limit == 1 else many}"
    return "wrong-count", f"{found} here", expected, f"write {expected}"


def _repeated(_: Any, __: Schema) -> tuple[str, str, str, str]:
    """Word an entry that stands twice in a list."""
    return "repeated-entry", "an entry stands twice in this list", "each once", "take one of the two out"


def _not_here(_: Any, __: Schema) -> tuple[str, str, str, str]:
    """Word a key that may not stand beside another."""
    return "not-together", "this key may not stand with its neighbours", "", "take it out, or the key it contradicts"


def _other(finding: Any, schema: Schema) -> tuple[str, str, str, str]:
    """Word anything else."""
    return "wrong-value", f"{_shown(finding.instance)} does not fit", described(schema), "correct it"


_WORDERS = {
    "type": _type,
    "enum": _enum,
    "const": _other,
    "pattern": _pattern,
    "format": _format,
    "uniqueItems": _repeated,
    "not": _not_here,
    "None": _not_here,
    "False": _not_here,
    **dict.fromkeys(_BOUNDS, _bound),
    **dict.fromkeys(_COUNTS, _count),
}
