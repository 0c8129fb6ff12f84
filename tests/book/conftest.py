"""Fixtures of the tests of the book."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.book.small_book import Book, small_book


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Return a small book that loads without a problem."""
    return small_book(tmp_path)
