"""Folders that travel with the engine."""

from __future__ import annotations

import pytest

from soilrota.files.faults import MissingShippedFolderError
from soilrota.files.shipped import shipped


def test_both_folders_are_found() -> None:
    """Schemas and templates are there, in a checkout as in a wheel."""
    assert (shipped("schemas") / "client.schema.json").is_file()
    assert (shipped("report_templates") / "programme.html.jinja").is_file()


def test_an_installation_that_is_not_whole_is_said() -> None:
    """A folder that did not come along is a fault of the installation."""
    with pytest.raises(MissingShippedFolderError):
        shipped("no-such-folder")
