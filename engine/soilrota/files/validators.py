"""Draft-07 validators whose patterns and formats really check, over a closed registry."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

from jsonschema import Draft7Validator, ValidationError
from jsonschema.validators import extend
from referencing import Registry
from referencing.jsonschema import DRAFT7

from soilrota.files.formats import fault


@lru_cache(maxsize=512)
def _pattern(pattern: str) -> re.Pattern[str]:
    """Return a pattern that must fit the whole text, in ASCII digits and letters."""
    return re.compile(pattern.removeprefix("^").removesuffix("$"), re.ASCII)


def _check_pattern(_: Any, pattern: str, instance: Any, __: Any) -> Iterator[ValidationError]:
    """Yield an error where the whole text does not fit; jsonschema itself lets parts and trailing newlines pass."""
    if isinstance(instance, str) and not _pattern(pattern).fullmatch(instance):
        yield ValidationError(f"{instance!r} does not fit")


def _check_format(_: Any, name: str, instance: Any, __: Any) -> Iterator[ValidationError]:
    """Yield an error where a text is not of its format; jsonschema itself checks few of them."""
    if isinstance(instance, str):
        wrong = fault(name, instance)
        if wrong:
            yield ValidationError(wrong[0], context=(), cause=None, validator_value=name)


def _check_required(_: Any, names: list[str], instance: Any, __: Any) -> Iterator[ValidationError]:
    """Yield one error a missing property, each naming it."""
    if isinstance(instance, dict):
        for name in names:
            if name not in instance:
                yield ValidationError(name)


_extend: Any = extend  # untyped in the library
_Validator = _extend(Draft7Validator, {"pattern": _check_pattern, "format": _check_format, "required": _check_required})


def make_validator(by_name: dict[str, Any], file_name: str) -> Any:
    """Return the validator of one schema of a closed set; nothing outside the set is ever looked up."""
    # With its `$schema` a referenced file would be handed to the library's own validator, without our checks.
    bare = {name: {key: value for key, value in schema.items() if key != "$schema"} for name, schema in by_name.items()}
    resources = ((name, DRAFT7.create_resource(schema)) for name, schema in bare.items())
    registry: Any = Registry().with_resources(resources)  # a registry without `retrieve` fetches nothing
    return _Validator({"$ref": file_name}, registry=registry)
