"""The page of a real browser; without a browser on the machine nothing here is collected."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.browser.driving import Page, a_page, browser_path

BROWSER = browser_path()
collect_ignore_glob = [] if BROWSER else ["test_*.py"]


@pytest.fixture(scope="session")
def browser_page() -> Iterator[Page]:
    """Return a page that all tests of a run share."""
    assert BROWSER is not None
    with a_page(BROWSER) as page:
        yield page
