"""What of the machine a night depends on beside the book."""

from __future__ import annotations

import sys
from importlib.metadata import version
from pathlib import Path

import pytest

from soilrota.batch import engine_files
from soilrota.batch.engine_files import engine_folders, libraries


def test_code_schemas_and_templates_each_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Beside one another in a checkout; inside the package, and then not named again, where it was installed."""
    package, schemas, templates = engine_folders()
    assert (package / "batch" / "night.py").is_file()
    assert (schemas / "practice.schema.json").is_file()
    assert (templates / "programme.css").is_file()
    monkeypatch.setattr(engine_files, "shipped", lambda name: package / "_shipped" / name)
    assert engine_folders() == (package,)


def test_libraries_with_their_versions(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """From wherever modules are looked for; a place that is not there has none, and what is hidden is none."""
    assert f"weasyprint-{version('weasyprint')}.dist-info" in libraries()
    (tmp_path / ".other-1.0.dist-info").mkdir()
    (tmp_path / "one-2.0.dist-info").mkdir()
    monkeypatch.setattr(sys, "path", ["", str(tmp_path), str(tmp_path / "nowhere")])
    assert libraries() == {"one-2.0.dist-info"}
