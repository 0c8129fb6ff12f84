"""Reads a YAML file or a map: form, words and schema checked, all problems found in one go."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from soilrota.files.document import Document, Node, path_text
from soilrota.files.json_nodes import parse_json
from soilrota.files.salvage import Fault, salvaged
from soilrota.files.schemas import SchemaSet, shipped_schemas
from soilrota.files.strict_yaml import parse_yaml
from soilrota.files.typed import Typing
from soilrota.files.wording import worded
from soilrota.problems import Problem, has_errors, in_order


def read_yaml(
    file: Path, name: str, schema: str, schemas: SchemaSet | None = None
) -> tuple[Document | None, tuple[Problem, ...]]:
    """Read a YAML file of the book against a schema.

    Args:
        file: where it lies.
        name: its name in the book, for places.
        schema: name of the schema, for instance `client` for `client.schema.json`.
        schemas: the closed set of schemas; the shipped ones when None.

    Returns:
        The document, or None where it has an error; and all its problems in order.
    """
    document, problems = read_what_can_be(file, name, schema, schemas)
    return None if has_errors(problems) else document, problems


def read_what_can_be(
    file: Path, name: str, schema: str, schemas: SchemaSet | None = None
) -> tuple[Document | None, tuple[Problem, ...]]:
    """Read a YAML file of the book like `read_yaml`, and return what can be used of it where it has errors.

    Such a document serves to find further problems, never to go on with: its `left_out` names the entries that lack
    something. None where nothing can be used.
    """
    root, found = parse_yaml(file, name)
    if root is None:
        return None, in_order(found)
    schemas, file_name = schemas or shipped_schemas(), f"{schema}.schema.json"
    data, problems, faults = checked(root, name, file_name, schemas)
    problems += found
    if not faults:
        return Document(name, data, root), in_order(problems)
    kept, left_out = salvaged(data, faults, schemas, file_name)
    entries = tuple(path_text(path[:-1]) for path in left_out)
    return None if kept is None else Document(name, kept, root, entries), in_order(problems)


def read_geojson(
    file: Path, name: str, schemas: SchemaSet | None = None
) -> tuple[Document | None, tuple[Problem, ...]]:
    """Read a map (RFC 7946) of the book against the schema `map`; arguments and answer are those of `read_yaml`."""
    root, found = parse_json(file, name)
    if root is None:
        return None, in_order(found)
    data, problems = check(root, name, "map.schema.json", schemas or shipped_schemas())
    return None if has_errors(problems) else Document(name, data, root), in_order(problems)


def check(root: Node, name: str, file_name: str, schemas: SchemaSet) -> tuple[Any, tuple[Problem, ...]]:
    """Return the values of the nodes under a schema, and what is wrong with them."""
    data, problems, _ = checked(root, name, file_name, schemas)
    return data, problems


def checked(
    root: Node, name: str, file_name: str, schemas: SchemaSet
) -> tuple[Any, tuple[Problem, ...], tuple[Fault, ...]]:
    """Return the values of the nodes under a schema, what is wrong with them, and where the schema was not kept.

    Of a word that was refused on its own, and of anything below it, nothing else is said.
    """
    typing = Typing(schemas, name)
    schema, home = schemas.resolved(schemas.named(file_name), file_name)
    data = typing.value(root, schema, home)
    problems = list(typing.problems)
    faults = [Fault(path, "refused") for path in sorted(typing.refused, key=str)]
    faults += [Fault(path, "unknown") for path in typing.unknown]
    seen: set[tuple[Any, ...]] = set()
    for finding in schemas.validator(file_name).iter_errors(data):
        path = tuple(finding.absolute_path)
        once = (path, finding.validator, finding.message if finding.validator == "required" else "")
        if once in seen or any(path[: len(refused)] == refused for refused in typing.refused):
            continue
        seen.add(once)
        faults.append(Fault(path, str(finding.validator)))
        problems.append(worded(finding, schemas, file_name, root, name))
    return data, tuple(problems), tuple(faults)
