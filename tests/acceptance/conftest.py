"""Fixtures of the acceptance tests."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.acceptance.small_book import write_book


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """Return the folder of a small book."""
    return write_book(tmp_path / "book")


@pytest.fixture
def out(tmp_path: Path) -> Path:
    """Return an output folder that does not exist yet."""
    return tmp_path / "out"
