"""The closed set of schemas."""

from __future__ import annotations

import json
import socket
from pathlib import Path

import pytest

from soilrota.files.faults import SchemaError
from soilrota.files.schemas import load_schemas, shipped_schemas


def test_a_reference_that_leaves_the_package_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No socket is opened for a reference to the network; it is a fault at the start."""

    def never(*_: object, **__: object) -> None:
        raise AssertionError("a socket was opened")

    monkeypatch.setattr(socket, "socket", never)
    (tmp_path / "a.schema.json").write_text(json.dumps({"properties": {"x": {"$ref": "https://example.org/x.json"}}}))
    with pytest.raises(SchemaError, match="leaves the package"):
        load_schemas(tmp_path)


@pytest.mark.parametrize("content", ['{"properties": {"x": {"$ref": "#/definitions/none"}}}', "{"])
def test_a_broken_schema_is_a_fault(tmp_path: Path, content: str) -> None:
    """A reference that leads nowhere, or text that is no JSON, is said at the start."""
    (tmp_path / "a.schema.json").write_text(content)
    with pytest.raises(SchemaError):
        load_schemas(tmp_path)


def test_the_schema_of_a_path() -> None:
    """The schema of a value is found through references and lists."""
    schema = shipped_schemas().at("client.schema.json", ("farms", 0, "zones", 2, "area_ha"))
    assert schema["title"] == "Area"
    assert shipped_schemas().at("client.schema.json", ("farms", 0, "nothing")) == {}


def test_no_such_schema() -> None:
    """An unknown name is a fault of the program."""
    with pytest.raises(SchemaError):
        shipped_schemas().named("none.schema.json")
